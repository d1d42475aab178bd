package web

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// newerError says that a file is not what it was when it was read.
type newerError struct{ disk Text }

func (e *newerError) Error() string {
	what := "was changed on disk meanwhile"
	if e.disk.Version == "" {
		what = "is no longer on disk"
	}
	return e.disk.File + ": " + what + "\nhint: look at what differs and choose which text stays"
}

// writable faults names that the desk does not write.
func (d *Desk) writable(name string) error {
	switch {
	case !fs.ValidPath(name) || name == "." || strings.ContainsAny(name, "\\:\x00\n"):
		return fmt.Errorf("%q is no name of a file of this folder\nhint: such as tansy.yaml or variants/tansy.yaml", name)
	case !editable(name):
		return fmt.Errorf("%s: is not written\nhint: names end in .yaml, .csv, .dat or .txt", name)
	case strings.Count(name, "/") > deepest:
		return fmt.Errorf("%s: lies too deep\nhint: at most %d folders down", name, deepest)
	}
	for part := range strings.SplitSeq(name, "/") {
		if strings.HasPrefix(part, ".") || part == runsFolder {
			return fmt.Errorf("%s: %s is not for boat files\nhint: choose another name", name, part)
		}
	}
	info, err := d.root.Lstat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("%s: cannot be written: it is outside of the desk's folder, or may not be\nhint: choose a name within the folder", name)
	case info.Mode()&fs.ModeSymlink != 0:
		return fmt.Errorf("%s: is a link to another file, and would be replaced by a file\nhint: open the file that it leads to", name)
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s: is not a plain file\nhint: choose another name", name)
	}
	return nil
}

// onDisk returns a file as it stands; one that is not there has no version.
func (d *Desk) onDisk(name string) (Text, error) {
	if _, err := d.root.Lstat(name); errors.Is(err, fs.ErrNotExist) {
		return Text{File: name}, nil
	}
	text, err := d.open(name)
	if err != nil {
		return Text{}, err
	}
	return Text{name, string(text), version(text)}, nil
}

// save writes a text in place of the version that was read, or a new file. The text on
// disk is the old one or the new one, whole, at any moment.
func (d *Desk) save(s Saving) error {
	switch {
	case len(s.Text) > largest:
		return fmt.Errorf("%s: the text has more than 1 MB\nhint: a boat file is a page or two of text", s.File)
	case !utf8.ValidString(s.Text):
		return fmt.Errorf("%s: the text is not UTF-8", s.File)
	}
	if err := d.writable(s.File); err != nil {
		return err
	}
	d.saving.Lock()
	defer d.saving.Unlock()
	disk, err := d.onDisk(s.File)
	switch {
	case err != nil:
		return err
	case disk.Version != s.Base:
		return &newerError{disk}
	}
	return d.write(s.File, []byte(s.Text))
}

// write puts a text beside its file, on disk for good, and then in its place.
func (d *Desk) write(name string, text []byte) (err error) {
	folder := path.Dir(name)
	if err := d.root.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("%s: its folder cannot be made: %w", name, errors.Unwrap(err))
	}
	mode := fs.FileMode(0o644)
	if info, err := d.root.Stat(name); err == nil {
		mode = info.Mode().Perm()
	}
	beside := path.Join(folder, "."+path.Base(name)+"."+rand.Text()[:8]+".part")
	defer func() {
		if err != nil {
			_ = d.root.Remove(beside)
			err = fmt.Errorf("%s: cannot be written: %w", name, err)
		}
	}()
	f, err := d.root.OpenFile(beside, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	if _, err = f.Write(text); err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	if err = d.root.Rename(beside, name); err != nil {
		return err
	}
	// The new name reaches the disk with its folder; not every system can be told.
	if at, err := d.root.Open(folder); err == nil {
		_ = at.Sync()
		_ = at.Close()
	}
	return nil
}

// variant makes a new boat file that is like another.
func (d *Desk) variant(m Moving) error {
	if _, err := d.open(m.From); err != nil {
		return err
	}
	name := strings.Join(strings.Fields(m.Boat), " ")
	if name == "" || strings.ContainsAny(name, "\"\\") || len(name) > 100 {
		return fmt.Errorf("%q is no name for a boat\nhint: a word or two", m.Boat)
	}
	like, err := filepath.Rel(filepath.FromSlash(path.Dir(m.To)), filepath.FromSlash(path.Clean(m.From)))
	if err != nil || strings.ContainsAny(like, ":#\"\n") {
		return fmt.Errorf("%s cannot be named from %s\nhint: choose another name", m.From, m.To)
	}
	return d.save(Saving{File: m.To, Text: fmt.Sprintf("foilwright: 1\nname: %s\nlike: %s   # what is not written here is as there\n", inYAML(name), inYAML(filepath.ToSlash(like)))})
}

// inYAML is a name as YAML takes it: in quotes where it is more than letters and figures.
func inYAML(name string) string {
	for i, r := range name {
		if !unicode.IsLetter(r) && (i == 0 && r != '.' || !unicode.IsDigit(r) && !strings.ContainsRune(" ./_-", r)) {
			return fmt.Sprintf("%q", name)
		}
	}
	if slices.Contains([]string{"true", "false", "yes", "no", "null", "none"}, strings.ToLower(name)) {
		return fmt.Sprintf("%q", name)
	}
	return name
}

// rename gives a file another name, which must be free; a file that others name keeps its own.
func (d *Desk) rename(m Moving) error {
	for _, name := range []string{m.From, m.To} {
		if err := d.writable(name); err != nil {
			return err
		}
	}
	d.saving.Lock()
	defer d.saving.Unlock()
	if by := d.naming(m.From); len(by) > 0 {
		return fmt.Errorf("%s: is named in %s\nhint: change it there first, or make a variant", m.From, strings.Join(by, ", "))
	}
	switch to, err := d.onDisk(m.To); {
	case err != nil:
		return err
	case to.Version != "":
		return fmt.Errorf("%s: there is a file of this name\nhint: choose another", m.To)
	}
	if path.Dir(m.From) != path.Dir(m.To) {
		return fmt.Errorf("%s: lies in another folder than %s\nhint: names in a boat file are relative to its folder: keep it there", m.To, m.From)
	}
	if err := d.root.Rename(m.From, m.To); err != nil {
		return fmt.Errorf("%s: cannot be renamed: %w", m.From, err)
	}
	return nil
}

// naming returns the files that name a file.
func (d *Desk) naming(name string) []string {
	var by []string
	d.walk(func(other string, _ fs.DirEntry) {
		text, err := d.open(other)
		if err != nil || other == name || path.Ext(other) == ".csv" {
			return
		}
		for line := range strings.Lines(string(text)) {
			said, _, _ := strings.Cut(line, " #")
			if !strings.HasPrefix(said, "#") && names(said, path.Base(name)) {
				by = append(by, other)
				return
			}
		}
	})
	return by
}

// names tells whether a line holds a file's name on its own.
func names(line, name string) bool {
	for _, word := range strings.FieldsFunc(line, func(r rune) bool { return strings.ContainsRune(" \t\r\n\"'{}[],:", r) }) {
		if path.Base(word) == name {
			return true
		}
	}
	return false
}
