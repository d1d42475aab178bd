package boatfile

import (
	"bytes"
	"fmt"
	"io"
	"path"
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
	texts    []pulled
}

type shelvedSection struct {
	file, text string
	section    section.Section
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
	if s.open == nil || s.filling == nil {
		return full, nil, fmt.Errorf("%s cannot be read: no other files are at hand here", full)
	}
	text, err := s.open(full)
	if err != nil {
		return full, nil, fmt.Errorf("%s cannot be read: %w", full, err)
	}
	if len(text) > largestFile {
		return full, nil, fmt.Errorf("%s has %.1f MB, 1 MB is allowed", full, float64(len(text))/largestFile)
	}
	s.texts = append(s.texts, pulled{full, text})
	*s.filling = append(*s.filling, pulled{full, text})
	return full, text, nil
}

// section returns the section that a text at a place names.
func (s *shelf) section(at Place, text string) (section.Section, error) {
	for _, have := range s.sections {
		if have.file == at.File && have.text == text {
			return have.section, have.err
		}
	}
	sec, err := section.ParseWith(text, func(name string) (io.ReadCloser, error) {
		_, text, err := s.fetch(at, name)
		return io.NopCloser(bytes.NewReader(text)), err
	})
	if s.filling != nil {
		s.sections = append(s.sections, shelvedSection{at.File, text, sec, err})
	}
	return sec, err
}

// split parts an error of a package below into problem and hint.
func split(err error) (problem, hint string) {
	problem, hint, _ = strings.Cut(err.Error(), "\nhint: ")
	return strings.ReplaceAll(problem, "\n", "; "), strings.ReplaceAll(hint, "\n", "; ")
}
