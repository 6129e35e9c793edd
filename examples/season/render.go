package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"example.org/weft/periodize/season"
)

// render returns the whole output, so that nothing half-made is ever written.
func render(opt *options, in *input, plan *season.Plan) ([]byte, error) {
	switch opt.format {
	case "json":
		b, err := json.MarshalIndent(plan, "", "  ")
		if err != nil {
			return nil, fmt.Errorf("writing the plan as JSON: %w", err)
		}
		return append(b, '\n'), nil
	case "ics":
		var b bytes.Buffer
		err := writeCalendar(&b, in, plan)
		return b.Bytes(), err
	}
	if opt.sheet != "" || opt.format == "html" || opt.format == "csv" {
		return handouts(opt, in, plan)
	}
	return text(in, plan, opt.verbose), nil
}

// write puts the output where it was asked for.
func (p *program) write(name string, out []byte) error {
	if name == "" {
		_, err := p.stdout.Write(out)
		return err
	}
	return writeFile(name, out)
}

// writeFile writes a file whole or not at all: into a new file in the same
// folder, which then takes the name.
func writeFile(name string, out []byte) error {
	f, err := os.CreateTemp(filepath.Dir(name), ".season-*")
	if err != nil {
		return err
	}
	_, err = f.Write(out)
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = os.Chmod(f.Name(), mode(name))
	}
	if err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		_ = os.Remove(f.Name())
	}
	return err
}

// mode is that of the file to be replaced; a plan is about one person, so a new
// file is for its owner alone.
func mode(name string) os.FileMode {
	if i, err := os.Stat(name); err == nil && i.Mode().IsRegular() {
		return i.Mode().Perm()
	}
	return 0o600
}
