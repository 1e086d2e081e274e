package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// showHelp answers /help from the same table that answers commands.
func showHelp(t *turn) (chat.Reply, error) {
	topic := strings.ToLower(strings.TrimPrefix(t.options["topic"], "/"))
	switch topic {
	case "":
		return private(render.Help(t.helpLines(t.bot.table))), nil
	case "words":
		return private(render.Words()), nil
	case "privacy":
		return private(render.Privacy()), nil
	case "lines":
		return private(readingHelp()), nil
	}
	group := t.bot.table.group(topic)
	if len(group) == 0 {
		topics := append(t.bot.table.names(), "words", "lines", "privacy")
		hint := "There is help for: " + strings.Join(topics, ", ") + "."
		if near, ok := parse.Near(topic, topics); ok {
			hint = "Did you mean /help " + near + "? " + hint
		}
		return chat.Reply{}, planner.Errorf(planner.Unknown, hint, "There is no help for %q", parse.Clean(t.options["topic"]))
	}
	return private(render.HelpFor(topic, t.helpLines(group))), nil
}

// readingHelp shows how lines are read that can be read in two ways.
func readingHelp() chat.Message {
	var lines []string
	for _, r := range parse.Rules() {
		line := strings.ReplaceAll(r.Typed, `\n`, " / ") + " → " + r.Read
		if r.After != "" {
			line = r.After + ", then " + line
		}
		lines = append(lines, line)
	}
	return render.Lines(lines)
}

// helpLines are the commands that the speaker may use.
func (t *turn) helpLines(cs table) []render.HelpLine {
	var out []render.HelpLine
	for _, c := range cs {
		if c.Who == CaptainOnly && !t.speaker.Captain {
			continue
		}
		line := render.HelpLine{Path: c.Path(), About: c.About, Example: c.Example}
		for _, p := range c.params() {
			about := p.About
			if len(p.Choices) > 0 {
				about += " (" + strings.Join(p.Choices, ", ") + ")"
			}
			line.Options = append(line.Options, render.HelpOption{Name: p.Name, About: about, Required: p.Required})
		}
		out = append(out, line)
	}
	return out
}
