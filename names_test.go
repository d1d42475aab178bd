package foilwright_test

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"slices"
	"strings"
	"testing"
)

// The checks here look at what names stand for within one package. Imports are
// not followed: what comes from elsewhere stays unknown, and is no concern.

// resolved is one package with what its names stand for.
type resolved struct {
	files []goFile
	info  *types.Info
	scope *types.Scope
}

// A boolean in a call says nothing to who reads it: trim(b, true). Name two
// functions, or a type with two values.
func TestNoBooleanParameters(t *testing.T) {
	for _, p := range resolvedPackages(t) {
		for _, found := range p.booleanParameters() {
			t.Error(found)
		}
	}
}

// Package variables are tables and errors, written where they are declared and
// nowhere else: two goroutines, and two runs, see the same.
func TestPackageVariablesNeverChange(t *testing.T) {
	for _, p := range resolvedPackages(t) {
		for _, found := range append(p.changes(), p.madeToChange()...) {
			t.Error(found)
		}
	}
}

// The checks find what they are for, and only that.
func TestTheChecksSee(t *testing.T) {
	const text = `package p

import "sync"

type flag bool

var table = []int{1}
var count int
var lock sync.Mutex

func F(on bool, n int)                { table[0] = 2; count++ }
func G(n int, more ...flag)           { table := table; table[0] = 3; local := count; local++; clear(table) }
func h(on bool)                       {}
func (T) M(on *bool) bool             { return *on }
func (hidden[K]) N(on bool) int       { clear(table); return len(table) }

type T struct{}
type hidden[K any] struct{}
`
	set := token.NewFileSet()
	syntax, err := parser.ParseFile(set, "p.go", text, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	p := resolve("p", []goFile{{name: "p.go", folder: "p", syntax: syntax, set: set}})
	for _, c := range []struct {
		name  string
		found []string
		want  string
	}{
		{"booleans", p.booleanParameters(), "p.go:11 F, p.go:12 G, p.go:14 M"},
		{"changes", p.changes(), "p.go:11 table, p.go:11 count, p.go:15 table"},
		{"locks", p.madeToChange(), "p.go:9 lock"},
	} {
		var short []string
		for _, f := range c.found {
			place, rest, _ := strings.Cut(f, ": ")
			words := strings.Fields(rest)
			last := strings.LastIndex(place, ":")
			short = append(short, place[:last]+" "+words[0])
		}
		if got := strings.Join(short, ", "); got != c.want {
			t.Errorf("%s: found %s, want %s", c.name, got, c.want)
		}
	}
}

// resolvedPackages resolves every package's names, tests left out.
func resolvedPackages(t *testing.T) []resolved {
	t.Helper()
	folders := map[string][]goFile{}
	var order []string
	for _, f := range goFiles(t) {
		if f.isTest() {
			continue
		}
		if _, known := folders[f.folder]; !known {
			order = append(order, f.folder)
		}
		folders[f.folder] = append(folders[f.folder], f)
	}
	var all []resolved
	for _, folder := range order {
		all = append(all, resolve(folder, folders[folder]))
	}
	return all
}

func resolve(folder string, files []goFile) resolved {
	var syntax []*ast.File
	for i := range files {
		syntax = append(syntax, files[i].syntax)
	}
	info := &types.Info{Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}, Types: map[ast.Expr]types.TypeAndValue{}}
	config := types.Config{Importer: nowhere{}, Error: func(error) {}}
	pkg := types.NewPackage(folder, files[0].syntax.Name.Name)
	// What Files reports is about what the imports would have held.
	_ = types.NewChecker(&config, files[0].set, pkg, info).Files(syntax)
	return resolved{files, info, pkg.Scope()}
}

// nowhere imports nothing.
type nowhere struct{}

func (nowhere) Import(string) (*types.Package, error) { return nil, errors.New("not followed") }

// booleanParameters returns where exported functions take a boolean.
func (p *resolved) booleanParameters() []string {
	var found []string
	for _, f := range p.files {
		for _, d := range f.syntax.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || !fn.Name.IsExported() || !exportedReceiver(fn) {
				continue
			}
			for _, field := range fn.Type.Params.List {
				if p.isBoolean(field.Type) {
					found = append(found, fmt.Sprintf("%s: %s takes a boolean", f.set.Position(field.Pos()), fn.Name.Name))
				}
			}
		}
	}
	return found
}

func (p *resolved) isBoolean(e ast.Expr) bool {
	if dots, ok := e.(*ast.Ellipsis); ok {
		e = dots.Elt
	}
	t := p.info.TypeOf(e)
	if t == nil {
		return false
	}
	if pointer, ok := t.Underlying().(*types.Pointer); ok {
		t = pointer.Elem()
	}
	basic, ok := t.Underlying().(*types.Basic)
	return ok && basic.Info()&types.IsBoolean != 0
}

// exportedReceiver tells whether a function can be called from outside.
func exportedReceiver(fn *ast.FuncDecl) bool {
	if fn.Recv == nil {
		return true
	}
	receiver := baseOf(fn.Recv.List[0].Type)
	return receiver == nil || receiver.IsExported()
}

// changes returns where package variables, or what they hold, are stored to.
func (p *resolved) changes() []string {
	var found []string
	change := func(f goFile, e ast.Expr) {
		id := baseOf(e)
		if id == nil {
			return
		}
		if v, ok := p.info.Uses[id].(*types.Var); ok && v.Parent() == p.scope {
			found = append(found, fmt.Sprintf("%s: %s is a package variable, and changes", f.set.Position(e.Pos()), id.Name))
		}
	}
	for _, f := range p.files {
		ast.Inspect(f.syntax, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.AssignStmt:
				if x.Tok != token.DEFINE {
					for _, e := range x.Lhs {
						change(f, e)
					}
				}
			case *ast.IncDecStmt:
				change(f, x.X)
			case *ast.RangeStmt:
				if x.Tok == token.ASSIGN {
					change(f, x.Key)
					change(f, x.Value)
				}
			case *ast.CallExpr:
				called, ok := x.Fun.(*ast.Ident)
				if ok && len(x.Args) > 0 && slices.Contains([]string{"delete", "clear", "copy"}, called.Name) {
					change(f, x.Args[0])
				}
			}
			return true
		})
	}
	return found
}

// baseOf returns the name that an expression stores under: v for v.a[i].b, T
// for *T[K]. What a call returns has none.
func baseOf(e ast.Expr) *ast.Ident {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x
		case *ast.SelectorExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.IndexListExpr:
			e = x.X
		case *ast.SliceExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		default:
			return nil
		}
	}
}

// madeToChange returns package variables whose type is made to change. A value
// worked out once (sync.OnceValue) is a constant and may stand.
func (p *resolved) madeToChange() []string {
	var found []string
	for _, f := range p.files {
		for _, d := range f.syntax.Decls {
			group, ok := d.(*ast.GenDecl)
			if !ok || group.Tok != token.VAR {
				continue
			}
			for _, s := range group.Specs {
				spec, ok := s.(*ast.ValueSpec)
				if !ok {
					continue
				}
				from := baseOf(spec.Type)
				if from != nil && (from.Name == "sync" || from.Name == "atomic") {
					found = append(found, fmt.Sprintf("%s: %s is a package variable, made to change", f.set.Position(spec.Pos()), spec.Names[0].Name))
				}
			}
		}
	}
	return found
}
