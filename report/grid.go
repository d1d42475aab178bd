package report

import (
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"foilwright/quantity"
)

// width is how many columns text fills.
const width = 98

// page is text in the making: paragraphs and tables, a blank line between them.
type page struct {
	strings.Builder
	weight float64 // of the boat that it is about, N: sets the unit of forces
	units  quantity.Units
}

func (p *page) gap() {
	if p.Len() > 0 {
		p.WriteString("\n")
	}
}

// say adds a paragraph, wrapped.
func (p *page) say(words string) {
	p.gap()
	p.WriteString(wrapped(words, ""))
}

// wrapped breaks words into lines; lines after the first begin with indent.
func wrapped(words, indent string) string {
	var out strings.Builder
	column := 0
	for _, word := range strings.Fields(words) {
		n := text.StringWidthWithoutEscSequences(word)
		switch {
		case column == 0:
		case column+1+n > width:
			out.WriteString("\n" + indent)
			column = len(indent)
		default:
			out.WriteString(" ")
			column++
		}
		out.WriteString(word)
		column += n
	}
	out.WriteString("\n")
	return out.String()
}

// list adds points below one another, each after a dash.
func (p *page) list(title string, points []string) {
	if len(points) == 0 {
		return
	}
	p.gap()
	p.WriteString(wrapped(title, ""))
	for _, point := range points {
		p.WriteString("- " + wrapped(point, "  "))
	}
}

// column is the head of one column of a table.
type column struct {
	head  string
	align text.Align
	most  int // widest that the column may be; 0 for as wide as it takes
}

// words and figures are columns of text and of numbers.
func words(head string) column { return column{head: head, align: text.AlignLeft} }

func figures(head string) column { return column{head: head, align: text.AlignRight} }

func narrow(head string, most int) column {
	return column{head: head, align: text.AlignLeft, most: most}
}

// row is the cells of one line of a table; nil is a rule.
type row []string

// table adds a table with a title above it. A head with no row below it is left out.
func (p *page) table(title string, columns []column, rows []row) {
	if len(rows) == 0 {
		return
	}
	p.gap()
	if title != "" {
		p.WriteString(wrapped(title, ""))
	}
	t := table.NewWriter()
	t.SetStyle(quiet())
	t.SuppressTrailingSpaces()
	var head table.Row
	var configs []table.ColumnConfig
	named := false
	for i, c := range columns {
		head = append(head, c.head)
		named = named || c.head != ""
		config := table.ColumnConfig{Number: i + 1, Align: c.align, AlignHeader: c.align}
		if c.most > 0 {
			config.WidthMax, config.WidthMaxEnforcer = c.most, text.WrapSoft
		}
		configs = append(configs, config)
	}
	if named {
		t.AppendHeader(head)
	}
	t.SetColumnConfigs(configs)
	for _, r := range rows {
		if r == nil {
			t.AppendSeparator()
			continue
		}
		cells := make(table.Row, len(columns))
		for i := range cells {
			cells[i] = ""
			if i < len(r) {
				cells[i] = r[i]
			}
		}
		t.AppendRow(cells)
	}
	for _, line := range strings.Split(t.Render(), "\n") {
		p.WriteString(strings.TrimRight("  "+line, " ") + "\n")
	}
}

// quiet is the tables' style: no boxes, one thin rule under the head.
func quiet() table.Style {
	s := table.StyleLight
	s.Name = "quiet"
	s.Box.PaddingLeft, s.Box.PaddingRight = "", "  "
	s.Box.MiddleSeparator, s.Box.LeftSeparator, s.Box.RightSeparator = "─", "", ""
	s.Format = table.FormatOptions{}
	s.Options = table.Options{SeparateHeader: true}
	return s
}
