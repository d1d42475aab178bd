package boatfile

import (
	"bytes"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/section"
)

// shelf keeps what the boat's other files hold: sections and resistance curves.
// It is filled when a sheet is read, and only read from then on.
type shelf struct {
	open     Opener
	filling  *[]pulled // where files are noted while it is filled; nil afterwards
	sections []shelvedSection
	curves   []shelvedCurve
	texts    []pulled   // files that this sheet uses
	kept     []pulled   // files that sheets which it was made from used
	peaks    *peakShelf // shared by the sheets that are made from one another
	drags    []shelvedDrag
}

type shelvedSection struct {
	file, text  string // the file that names it, and how
	coordinates string // the file of coordinates that it came from, if any
	section     section.Section
	err         error
}

type shelvedDrag struct {
	file, name string // the file that names it, and how
	table      *section.DragTable
	err        error
}

type shelvedCurve struct {
	file  string
	curve boat.Resistance
}

// files returns the files of coordinates and curves that were read.
func (s *shelf) files() []pulled { return s.texts }

// fetch returns the text of a file that the file at a place names.
func (s *shelf) fetch(at Place, name string) (string, []byte, error) {
	if name == "" || path.IsAbs(name) || strings.ContainsAny(name, "\\:\x00") {
		return "", nil, fmt.Errorf("%q is not a file's name beside this file\nhint: write it relative to this file with forward strokes", name)
	}
	full := path.Join(path.Dir(at.File), name)
	for _, f := range s.texts {
		if f.name == full {
			return full, f.text, nil
		}
	}
	if s.filling == nil {
		return full, nil, fmt.Errorf("%s was not read with the boat", full)
	}
	text, err := s.read(full)
	if err != nil {
		return full, nil, err
	}
	s.texts = append(s.texts, pulled{full, text})
	if !slices.ContainsFunc(*s.filling, func(p pulled) bool { return p.name == full }) {
		*s.filling = append(*s.filling, pulled{full, text})
	}
	return full, text, nil
}

// read returns the text of a file, from sheets before or from the opener.
func (s *shelf) read(full string) ([]byte, error) {
	for _, f := range s.kept {
		if f.name == full {
			return f.text, nil
		}
	}
	if s.open == nil {
		return nil, fmt.Errorf("%s cannot be read: no other files are at hand here", full)
	}
	text, err := s.open(full)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", full, err)
	}
	if len(text) > largestFile {
		return nil, fmt.Errorf("%s has %.1f MB, 1 MB is allowed", full, float64(len(text))/largestFile)
	}
	return text, nil
}

// keep takes over the files of another sheet's shelf, and its sections that
// come from no file.
func (s *shelf) keep(other *shelf) {
	s.kept = append(append(s.kept, other.kept...), other.texts...)
	for _, sec := range other.sections {
		if sec.coordinates == "" {
			s.sections = append(s.sections, sec)
		}
	}
}

// holds tells whether the sheet uses a file.
func (s *shelf) holds(name string) bool {
	return slices.ContainsFunc(s.texts, func(p pulled) bool { return p.name == name })
}

// section returns the section that a text at a place names.
func (s *shelf) section(at Place, text string) (section.Section, error) {
	for _, have := range s.sections {
		if have.file == at.File && have.text == text {
			return have.section, have.err
		}
	}
	coordinates := ""
	sec, err := section.ParseWith(text, func(name string) (io.ReadCloser, error) {
		full, text, err := s.fetch(at, name)
		coordinates = full
		return io.NopCloser(bytes.NewReader(text)), err
	})
	if s.filling != nil {
		s.sections = append(s.sections, shelvedSection{at.File, text, coordinates, sec, err})
	}
	return sec, err
}

// dragTable returns the table of profile drag that the file at a place names.
func (s *shelf) dragTable(at Place, name string) (*section.DragTable, error) {
	for _, have := range s.drags {
		if have.file == at.File && have.name == name {
			return have.table, have.err
		}
	}
	full, text, err := s.fetch(at, name)
	var table *section.DragTable
	if err == nil {
		table, err = section.ReadDragTable(full, bytes.NewReader(text))
	}
	if s.filling != nil {
		s.drags = append(s.drags, shelvedDrag{at.File, name, table, err})
	}
	return table, err
}

// split parts an error of a package below into problem and hint.
func split(err error) (problem, hint string) {
	problem, hint, _ = strings.Cut(err.Error(), "\nhint: ")
	return strings.ReplaceAll(problem, "\n", "; "), strings.ReplaceAll(hint, "\n", "; ")
}
