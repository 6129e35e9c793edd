package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// failed reports whether one of the problems forbids planning.
func failed(problems []calendar.Problem) bool {
	for _, p := range problems {
		if p.Class == calendar.ClassError || p.Class == calendar.ClassRefusal {
			return true
		}
	}
	return false
}

// list prints problems, one a line: first those that must be mended.
func list(w io.Writer, problems []calendar.Problem) {
	var must, may []calendar.Problem
	for _, p := range problems {
		if failed([]calendar.Problem{p}) {
			must = append(must, p)
		} else {
			may = append(may, p)
		}
	}
	for _, p := range append(must, may...) {
		fmt.Fprintln(w, p.Error())
	}
	if n := len(must); n > 0 {
		fmt.Fprintf(w, "%s: nothing was planned\n", say.Count(n, "problem"))
	}
}

func wrong(code, path, value, reason, remedy string) calendar.Problem {
	return calendar.Problem{Code: code, Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy}
}

// unreadable says why a file could not be read.
func unreadable(name string, err error) calendar.Problem {
	reason, remedy := err.Error(), "give another file"
	var path *fs.PathError
	if errors.As(err, &path) {
		reason = path.Err.Error()
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		reason, remedy = "there is no such file", "check the name and the folder"
	case errors.Is(err, fs.ErrPermission):
		reason, remedy = "the file may not be read", "check its permissions"
	}
	return wrong("file", name, "", reason, remedy)
}
