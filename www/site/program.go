package site

import (
	"bytes"
	"context"
	"embed"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// The names of the JavaScript module for other programs and of its types. Who
// imports it writes the name down, so it carries no hash.
const (
	Program      = "drawoff.mjs"
	ProgramTypes = "drawoff.d.mts"
)

//go:embed program
var programs embed.FS

// forPrograms returns the module for other programs and its types. It runs the
// workshop's module, which has all of the core: hashed names that and its glue.
func forPrograms(ctx context.Context, hashed map[string]string) ([]File, error) {
	parts, err := json.Marshal(map[string]string{"glue": "./" + hashed["wasm_exec.js"], "module": "./" + hashed["workshop.wasm"]})
	if err != nil {
		return nil, err
	}
	script, err := programs.ReadFile("program/drawoff.mjs")
	if err != nil {
		return nil, err
	}
	types, err := programs.ReadFile("program/core.d.mts")
	if err != nil {
		return nil, err
	}
	for _, of := range []string{"Design", "Report"} {
		schema, err := described(ctx, strings.ToLower(of)+".schema.json")
		if err != nil {
			return nil, err
		}
		more, err := typesOf(of, schema)
		if err != nil {
			return nil, err
		}
		types = append(types, more...)
	}
	return []File{
		{Program, append([]byte("const parts = "+string(parts)+";\n"), script...)},
		{ProgramTypes, types},
	}, nil
}

// described returns a description of what Drawoff reads and writes, for
// programs, from its source.
func described(ctx context.Context, name string) ([]byte, error) {
	root, err := goTool(ctx, "list", "-m", "-f", "{{.Dir}}")
	if err != nil {
		return nil, fmt.Errorf("%w (%w)", ErrNoSource, err)
	}
	return os.ReadFile(filepath.Join(root, "testdata", name))
}

// schema is what of JSON Schema the types are made from.
type schema struct {
	Description string
	Ref         string `json:"$ref"`
	Type        any    // a word or several
	Const       any
	Enum        []any
	Examples    []string
	Items       *schema
	Properties  ordered
	Required    []string
	Defs        ordered `json:"$defs"`
}

// ordered is the members of an object in the order of the text.
type ordered []struct {
	Name string
	schema
}

func (o *ordered) UnmarshalJSON(text []byte) error {
	d := json.NewDecoder(bytes.NewReader(text))
	if _, err := d.Token(); err != nil {
		return err
	}
	for d.More() {
		name, err := d.Token()
		if err != nil {
			return err
		}
		var s schema
		if err := d.Decode(&s); err != nil {
			return err
		}
		*o = append(*o, struct {
			Name string
			schema
		}{name.(string), s})
	}
	return nil
}

// typesOf returns TypeScript's types for a JSON Schema, the whole under the name of.
func typesOf(of string, text []byte) ([]byte, error) {
	var whole schema
	if err := json.Unmarshal(text, &whole); err != nil {
		return nil, err
	}
	var b strings.Builder
	declare := func(name string, s schema) {
		b.WriteString("\n" + s.doc(""))
		if len(s.Properties) == 0 {
			fmt.Fprintf(&b, "export type %s = %s;\n", name, s.typ(of))
			return
		}
		fmt.Fprintf(&b, "export interface %s {\n", name)
		required := make(map[string]bool)
		for _, r := range s.Required {
			required[r] = true
		}
		for _, p := range s.Properties {
			optional := "?"
			if required[p.Name] {
				optional = ""
			}
			fmt.Fprintf(&b, "%s  %s%s: %s;\n", p.doc("  "), p.Name, optional, p.typ(of))
		}
		b.WriteString("}\n")
	}
	declare(of, whole)
	for _, d := range whole.Defs {
		declare(of+strings.ToUpper(d.Name[:1])+d.Name[1:], d.schema)
	}
	return []byte(b.String()), nil
}

// doc returns the comment before what s describes.
func (s schema) doc(indent string) string {
	said := s.Description
	if len(s.Examples) > 0 {
		said = strings.TrimSpace(said + " As typed: " + strings.Join(s.Examples, "; "))
	}
	if said == "" {
		return ""
	}
	return indent + "/** " + strings.ReplaceAll(said, "*/", "* /") + " */\n"
}

// typ returns the type of s.
func (s schema) typ(of string) string {
	literal := func(v any) string {
		text, _ := json.Marshal(v) // it came from JSON
		return string(text)
	}
	switch {
	case s.Ref != "":
		name := strings.TrimPrefix(s.Ref, "#/$defs/")
		return of + strings.ToUpper(name[:1]) + name[1:]
	case s.Const != nil:
		return literal(s.Const)
	case s.Enum != nil:
		words := make([]string, len(s.Enum))
		for i, v := range s.Enum {
			words[i] = literal(v)
		}
		return strings.Join(words, " | ")
	}
	types, ok := s.Type.([]any)
	if !ok {
		types = []any{s.Type}
	}
	words := make([]string, len(types))
	for i, t := range types {
		switch t {
		case "array":
			words[i] = s.Items.typ(of) + "[]"
			if len(s.Items.Enum) > 0 {
				words[i] = "(" + s.Items.typ(of) + ")[]"
			}
		case "integer":
			words[i] = "number"
		default:
			words[i] = fmt.Sprint(t)
		}
	}
	return strings.Join(words, " | ")
}
