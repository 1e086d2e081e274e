package discord

import "blockbell/bot/chat"

// say answers with a message of its own.
func (x *exchange) say(m chat.Message) {
	b, files := dress(m, "")
	if m.Private {
		b.Flags = flagEphemeral
	}
	x.mu.Lock()
	defer x.mu.Unlock()
	switch x.stage {
	case stageNew:
		if x.open(callback{Type: callbackMessage, Data: b}, files) != nil && x.stage != stageLost {
			// Whether it was heard or not: if it was, this changes it to the same.
			x.failed(x.edit(b, files))
		}
	case stageDeferred:
		x.keepPromise(m, b, files)
	case stageQuiet:
		x.failed(x.follow(b, files))
	default:
		return
	}
	x.stage = stageDone
}

// keepPromise delivers a message that was promised as a private one. A public
// answer is posted beside it.
func (x *exchange) keepPromise(m chat.Message, b body, files []chat.File) {
	if m.Private {
		x.failed(x.edit(b, files))
		return
	}
	line, _ := dress(chat.Message{Text: "The answer stands below, for everybody here."}, "")
	if err := x.edit(line, nil); err != nil {
		x.failed(err)
		return
	}
	x.failed(x.follow(b, files))
}

// update changes the message whose button was pressed. Its former buttons stay to
// be seen and can no longer be pressed, unless new ones take their place.
func (x *exchange) update(m chat.Message) {
	b, files := dress(m, "")
	b = b.whole()
	if len(m.Buttons) == 0 {
		if rows := disabled(x.in.Message.Rows); rows != nil {
			b.Components = &rows
		}
	}
	x.mu.Lock()
	defer x.mu.Unlock()
	switch x.stage {
	case stageNew:
		if x.open(callback{Type: callbackUpdate, Data: b}, files) != nil && x.stage != stageLost {
			x.failed(x.edit(b, files))
		}
	case stageQuiet:
		x.failed(x.edit(b, files))
	default:
		return
	}
	x.stage = stageDone
}

// edit changes the first answer, or the message whose button was pressed.
func (x *exchange) edit(b body, files []chat.File) error {
	b.Flags = 0 // who sees a message was settled when it was made
	_, err := x.a.rest.do(x.later, request{
		method: "PATCH", path: "/webhooks/" + x.in.App + "/" + x.in.Token + "/messages/@original",
		body: b.whole(), files: files, again: true,
	}, nil)
	return err
}

// follow sends one more message. It is never sent twice: the platform takes no
// nonce there.
func (x *exchange) follow(b body, files []chat.File) error {
	_, err := x.a.rest.do(x.later, request{
		method: "POST", path: "/webhooks/" + x.in.App + "/" + x.in.Token, body: b, files: files,
	}, nil)
	return err
}
