package main

import (
	"fmt"

	"blockbell/store"
)

// backupCommand copies a database that may be in use.
type backupCommand struct {
	DB string `name:"db" required:"" placeholder:"FILE" env:"BLOCKBELL_DB" help:"Database."`
	To string `required:"" placeholder:"FILE" help:"New file for the copy."`
}

// Run writes the copy; it appears under its name only when it is complete and
// checked.
func (b *backupCommand) Run(p *place) error {
	s, err := store.OpenForReading(p.ctx, b.DB)
	if err != nil {
		return err
	}
	defer s.Close()
	if err := s.Backup(p.ctx, b.To); err != nil {
		return err
	}
	_, err = fmt.Fprintf(p.stdout, "copied to %s\n", b.To)
	return err
}
