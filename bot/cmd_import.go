package bot

import (
	"bytes"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse/sheet"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// importLife is how long what was read of a file waits for a yes.
const importLife = 24 * time.Hour

// importParams are what /log import takes.
func importParams() []Param {
	return []Param{
		{Name: "file", About: "a table of sets as text (CSV) with date, lift, weight and reps", Required: true, File: true},
		{Name: "unit", About: "of weights whose unit the file does not name", Choices: unitWords},
		{Name: "columns", About: "which column is which, where I guess wrong: lift=Name, weight=Load"},
	}
}

// importArgs is what the buttons under a file carry. What is empty stays as it was.
type importArgs struct {
	Lifter  planner.LifterID `json:"lifter"`
	Import  store.ImportID   `json:"import"`
	Order   sheet.Order      `json:"order,omitempty"`
	Unit    planner.Unit     `json:"unit,omitempty"`
	Unknown bool             `json:"unknown,omitempty"`
}

// importFile answers /log import: it reads the file and shows what it would write.
func importFile(t *turn) (chat.Reply, error) {
	if len(t.event.Files) == 0 {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Attach the file to the command.", "file: I got no file")
	}
	var columns map[sheet.Field]string
	if v, ok := t.options["columns"]; ok {
		var err error
		if columns, err = sheet.Named(v); err != nil {
			return chat.Reply{}, err
		}
	}
	d, err := sheet.Open(t.event.Files[0].Bytes, columns)
	if err != nil {
		return chat.Reply{}, err
	}
	if v, ok := t.options["unit"]; ok {
		d.Unit = planner.Unit(v)
	}
	packed, err := d.Pack()
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.ForgetImports(t.now); err != nil {
		return chat.Reply{}, err
	}
	id, err := t.tx.AddImport(t.about.ID, packed, t.now, t.now.Add(importLife))
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("sent a file of sets"); err != nil {
		return chat.Reply{}, err
	}
	return t.preview(importArgs{Lifter: t.about.ID, Import: id}, d)
}

// intake is what a file would add to the log.
type intake struct {
	read  sheet.Result
	fresh []sheet.New
	known int
}

// take reads the rows of a file and compares them with the log.
func (t *turn) take(d *sheet.Draft) (intake, error) {
	log, err := t.tx.Sets(t.about.ID, 1, t.today())
	if err != nil {
		return intake{}, err
	}
	marked, err := t.tx.ImportedMarks(t.about.ID)
	if err != nil {
		return intake{}, err
	}
	known := map[planner.Lift]bool{}
	for _, s := range log {
		known[s.Lift] = true
	}
	var in intake
	in.read = d.Read(sheet.Options{Today: t.today(), Unit: t.about.Unit, Standard: standardOf(t.about), Known: known})
	in.fresh, in.known = sheet.Fresh(in.read.Sets, log, marked)
	return in, nil
}

// preview shows what a file would add. Nothing is written.
func (t *turn) preview(a importArgs, d *sheet.Draft) (chat.Reply, error) {
	view := render.ImportView{Ignored: d.Ignored, Rows: len(d.Rows), Unit: t.about.Unit, Who: t.forWhom(), Asks: d.Order == ""}
	for _, c := range d.Columns {
		view.Columns = append(view.Columns, string(c.Field)+" from "+c.Name)
	}
	var in intake
	if !view.Asks {
		var err error
		if in, err = t.take(d); err != nil {
			return chat.Reply{}, err
		}
		best := t.bests()
		importView(&view, in, best)
		if best.err != nil {
			return chat.Reply{}, best.err
		}
	}
	r := private(render.Import(view))
	r.Message.Data = importData(d, in)
	if err := addProblems(&r.Message, in.read.Problems); err != nil {
		return chat.Reply{}, err
	}
	var err error
	r.Message.Buttons, err = t.importButtons(a, d, in)
	return r, err
}

// addProblems attaches the whole list of what is wrong where it is long.
func addProblems(m *chat.Message, all []sheet.Problem) error {
	if len(all) <= render.ProblemsShown {
		return nil
	}
	var b bytes.Buffer
	if err := sheet.WriteProblems(&b, all); err != nil {
		return err
	}
	m.Files = append(m.Files, chat.File{Name: "problems.csv", Bytes: b.Bytes(), Alt: "all rows that could not be read, with column and reason"})
	return nil
}

// importButtons are the choices under a file.
func (t *turn) importButtons(a importArgs, d *sheet.Draft, in intake) ([]chat.Button, error) {
	var out []chat.Button
	var failed error
	add := func(label, does string, a importArgs) {
		b, err := t.buttonFor(label, does, a, t.speaker, importLife)
		if err != nil {
			failed = err
		}
		out = append(out, b)
	}
	plain := a
	if d.Order == "" {
		for _, order := range []sheet.Order{sheet.DayFirst, sheet.MonthFirst} {
			a.Order = order
			add(render.OrderLabel(string(order)), "import.choose", a)
		}
		add("Cancel", "import.drop", plain)
		return out, failed
	}
	if n := len(in.fresh); n > 0 {
		add("Import "+render.Count(n, "set"), "import.write", plain)
	}
	if len(in.read.Unknown) > 0 && !d.Unknown {
		a.Unknown = true
		add("Take the other lifts too", "import.choose", a)
		a = plain
	}
	if in.read.Assumed && len(in.fresh) > 0 {
		a.Unit = planner.LB
		if t.about.Unit == planner.LB {
			a.Unit = planner.KG
		}
		add("The weights are in "+string(a.Unit), "import.choose", a)
	}
	add("Cancel", "import.drop", plain)
	return out, failed
}

// importData is the preview for programs.
func importData(d *sheet.Draft, in intake) map[string]any {
	columns, problems, unknown := map[string]string{}, []map[string]any{}, []map[string]any{}
	for _, c := range d.Columns {
		columns[string(c.Field)] = c.Name
	}
	for _, p := range in.read.Problems[:min(len(in.read.Problems), 100)] {
		problems = append(problems, map[string]any{"row": p.Line, "column": p.Column, "text": p.Text})
	}
	for _, u := range in.read.Unknown {
		unknown = append(unknown, map[string]any{"name": u.Name, "rows": u.Rows})
	}
	return map[string]any{"import": map[string]any{
		"rows": len(d.Rows), "new": len(in.fresh), "known": in.known, "refused": len(in.read.Problems),
		"columns": columns, "ignored": d.Ignored, "order": d.Order, "problems": problems, "unknown": unknown,
	}}
}
