package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"frostward/cmd/internal/opened"

	"github.com/natefinch/atomic"
)

// replaceFile writes a whole file in one step: whoever reads it sees the old one or the new
// one. A new file may be read by everyone, as others that programs write.
func replaceFile(name string, b []byte) error {
	_, err := os.Stat(name)
	isNew := errors.Is(err, fs.ErrNotExist)
	if err := atomic.WriteFile(name, bytes.NewReader(b)); err != nil {
		return fmt.Errorf("%s: %w", name, opened.Cause(err))
	}
	if isNew {
		if err := os.Chmod(name, 0o644); err != nil {
			return fmt.Errorf("%s: %w", name, opened.Cause(err))
		}
	}
	return nil
}

// deliver writes a result to a file in one step, or to the output where none is named.
func (a *app) deliver(out string, b []byte) error {
	if out == "" {
		_, err := a.out.Write(b)
		return err
	}
	return replaceFile(out, b)
}
