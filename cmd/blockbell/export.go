package main

import (
	"blockbell/store"
)

// exportCommand prints a database. It only reads, so it can run beside another
// process that has the database open.
type exportCommand struct {
	JSON bool   `name:"json" required:"" help:"As one JSON object: table name -> rows. There is no other form."`
	DB   string `name:"db" placeholder:"FILE" help:"Database. Default: rehearse.db in the state folder ($$XDG_STATE_HOME/blockbell)."`
}

// Run writes the export to standard output.
func (e *exportCommand) Run(p *place) (err error) {
	if e.DB == "" {
		if e.DB, err = defaultDB(); err != nil {
			return err
		}
	}
	s, err := store.OpenForReading(p.ctx, e.DB)
	if err != nil {
		return err
	}
	defer s.Close()
	return s.Export(p.ctx, p.stdout)
}
