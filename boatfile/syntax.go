package boatfile

import (
	"errors"
	"fmt"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// parse turns a file's text into a tree, with every fault of its form. The tree
// is nil where the text is refused or is not YAML.
func parse(name string, text []byte) (*node, Faults) {
	text, refused := guard(name, text)
	if refused != nil {
		return nil, Faults{*refused}
	}
	file, err := parseYAML(text)
	if err != nil {
		return nil, Faults{syntaxFault(name, err)}
	}
	c := converter{file: name}
	var body ast.Node
	for _, doc := range file.Docs {
		if doc.Body == nil || doc.Body.Type() == ast.CommentType {
			continue
		}
		if body != nil {
			c.refuse(doc.Body.GetToken(), "", "a second document begins here", "keep one boat in a file, and leave out the line of ---")
			break
		}
		body = doc.Body
	}
	if body == nil {
		return nil, append(c.faults, Fault{File: name, Problem: "the file is empty",
			Hint: "begin with  foilwright: 1  and  name: …"})
	}
	root := c.convert(body, "")
	if root == nil {
		return nil, c.faults
	}
	if root.kind != mapping {
		return nil, append(c.faults, root.fault("", fmt.Sprintf("the file holds %s, keys and values are wanted", root.kind),
			"begin with  foilwright: 1  and  name: …"))
	}
	return root, c.faults
}

// parseYAML calls the YAML parser. A panic inside it becomes an error: what
// people wrote must not end the program.
func parseYAML(text []byte) (file *ast.File, err error) {
	defer func() {
		if r := recover(); r != nil {
			file, err = nil, fmt.Errorf("the text cannot be read as YAML")
		}
	}()
	return parser.ParseBytes(text, 0, parser.AllowDuplicateMapKey())
}

// syntaxFault turns the parser's error into a fault with its place.
func syntaxFault(name string, err error) Fault {
	f := Fault{File: name, Problem: "not YAML",
		Hint: "a key is followed by a colon and a space; what belongs to it is indented by spaces; text with  : # { } [ ] ,  goes in quotes"}
	// The parser's own text shows the source at length: only its message is taken.
	var syntax *yaml.SyntaxError
	if errors.As(err, &syntax) {
		f.Problem = "not YAML: " + syntax.Message
		if t := syntax.Token; t != nil && t.Position != nil {
			f.Line, f.Column = t.Position.Line, t.Position.Column
		}
	}
	f.Problem = strings.Join(strings.Fields(f.Problem), " ")
	return f
}

// converter turns the parser's tree into nodes.
type converter struct {
	file   string
	faults Faults
}

func (c *converter) place(t *token.Token) Place {
	p := Place{File: c.file}
	if t != nil && t.Position != nil {
		p.Line, p.Column = max(1, t.Position.Line), max(1, t.Position.Column)
	}
	return p
}

func (c *converter) refuse(t *token.Token, path, problem, hint string) *node {
	p := c.place(t)
	c.faults = append(c.faults, Fault{File: p.File, Line: p.Line, Column: p.Column, Path: path, Problem: problem, Hint: hint})
	return nil
}

// convert returns the node of a part of the parser's tree, nil where it was
// refused.
func (c *converter) convert(n ast.Node, path string) *node {
	switch n := n.(type) {
	case *ast.MappingNode:
		return c.mapping(n.GetToken(), n.Values, path)
	case *ast.MappingValueNode:
		return c.mapping(n.Key.GetToken(), []*ast.MappingValueNode{n}, path)
	case *ast.SequenceNode:
		out := &node{kind: list, place: c.place(n.GetToken()), path: path}
		for i, v := range n.Values {
			if item := c.convert(v, fmt.Sprintf("%s[%d]", path, i+1)); item != nil {
				out.items = append(out.items, item)
			}
		}
		return out
	case *ast.NullNode:
		if t := n.GetToken(); t.Value != "" && t.Value != "null" && t.Value != "~" {
			return c.scalar(t, t.Value, path)
		}
		return c.refuse(n.GetToken(), path, "no value is given", "write a value, or leave the key out")
	case *ast.LiteralNode:
		return c.refuse(n.GetToken(), path, "a block of text stands here", "write the text on one line, in quotes where it needs them")
	case *ast.AnchorNode, *ast.AliasNode, *ast.MergeKeyNode:
		return c.refuse(n.GetToken(), path, "anchors, aliases and merge keys are not read",
			"write  like: other-boat.yaml  to take over another boat, or  as: other piece  for a piece")
	case *ast.TagNode:
		return c.refuse(n.GetToken(), path, "tags are not read", "leave out the word that begins with !")
	case ast.ScalarNode:
		return c.scalar(n.GetToken(), n.GetToken().Value, path)
	case nil:
		return nil
	}
	return c.refuse(n.GetToken(), path, "this cannot be read as a value", "write a value, a mapping or a list")
}

func (c *converter) scalar(t *token.Token, text, path string) *node {
	out := &node{kind: scalar, text: text, place: c.place(t), path: path}
	switch t.Type {
	case token.SingleQuoteType:
		out.quoted = "'"
	case token.DoubleQuoteType:
		out.quoted = `"`
	default:
		// The parser takes line breaks within plain text as they stand.
		out.text = strings.Join(strings.Fields(text), " ")
	}
	return out
}

func (c *converter) mapping(t *token.Token, values []*ast.MappingValueNode, path string) *node {
	out := &node{kind: mapping, place: c.place(t), path: path}
	if len(values) > 0 && values[0].Key != nil {
		if first := c.place(values[0].Key.GetToken()); t == nil || t.Type == token.MappingValueType {
			out.place = first
		}
	}
	first := make(map[string]Place)
	for _, v := range values {
		t := v.Key.GetToken()
		if _, merge := v.Key.(*ast.MergeKeyNode); merge {
			c.convert(v.Key.(ast.Node), path)
			continue
		}
		if s, ok := v.Key.(ast.ScalarNode); !ok || s.Type() == ast.LiteralType {
			c.refuse(t, path, "a key that is not a plain word stands here", "write  word: value")
			continue
		}
		key := strings.Join(strings.Fields(t.Value), " ")
		at := c.place(t)
		if before, twice := first[key]; twice {
			c.refuse(t, below(path, key), "the key is here a second time",
				fmt.Sprintf("the first is in line %d: keep one of them", before.Line))
			continue
		}
		first[key] = at
		if value := c.convert(v.Value, below(path, key)); value != nil {
			out.entries = append(out.entries, entry{key: key, place: at, value: value})
		}
	}
	return out
}
