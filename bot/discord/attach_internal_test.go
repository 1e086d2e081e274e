package discord

import "testing"

// Files come from the platform's hosts only, or from the one in its place.
func TestFilesComeFromThePlatformOnly(t *testing.T) {
	for base, addresses := range map[string]map[string]bool{
		DefaultAPI: {
			"https://cdn.discordapp.com/ephemeral-attachments/1/2/a.csv?ex=1": true, "https://media.discordapp.net/attachments/1/2/a.csv": true,
			"http://cdn.discordapp.com/a": false, "https://cdn.discordapp.com.evil.example/a": false, "https://cdn.discordapp.com:8443/a": false,
			"https://me@cdn.discordapp.com/a": false, "https://discord.com/api/v10/users/@me": false, "file:///etc/passwd": false, "": false, "https://169.254.169.254/a": false,
		},
		"http://127.0.0.1:8080": {
			"http://127.0.0.1:8080/attachments/a": true, "http://127.0.0.1:8081/attachments/a": false, "http://localhost:8080/a": false,
			"https://cdn.discordapp.com/a": true,
		},
	} {
		a := &Adapter{Config: Config{API: base}}
		for at, want := range addresses {
			if a.fileAddress(at) != want {
				t.Errorf("with %s, %q is allowed: %v", base, at, !want)
			}
		}
	}
}
