package discordtest

import (
	"bytes"
	"compress/zlib"
)

// squeezer is the transport compression of one connection: one zlib stream,
// flushed after each packet. Only the writing goroutine uses it.
type squeezer struct {
	out bytes.Buffer
	z   *zlib.Writer
}

func newSqueezer() *squeezer {
	s := &squeezer{}
	s.z = zlib.NewWriter(&s.out)
	return s
}

// next compresses one more packet of the stream; writing to memory cannot fail.
func (s *squeezer) next(data []byte) []byte {
	s.out.Reset()
	_, _ = s.z.Write(data)
	_ = s.z.Flush()
	return bytes.Clone(s.out.Bytes())
}

// deflate compresses one packet alone, for sessions that asked for it.
func deflate(data []byte) []byte {
	var out bytes.Buffer
	z := zlib.NewWriter(&out)
	_, _ = z.Write(data)
	_ = z.Close()
	return out.Bytes()
}
