package mend

import (
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
)

// sealPath returns the field that names the seal of the joint at ref.
func sealPath(ref string) string { return ref + ".seal" } // of a piece or of the pump

// usualSeal puts the plant's usual seal, in the right size, into junctions[i].
func (m *mender) usualSeal(i int) []proposal {
	what := m.filled.Seal
	if mat, ok := catalog.FindMaterial(what); ok {
		what = mat.Name
	}
	up, down := m.junctions[i].Up.Half, m.junctions[i].Down.Half
	sentence := "Put in the seal of this joint, " + what + "."
	if up.Plain() && down.Plain() {
		sentence = "Leave the seal out: this joint is welded."
	}
	return []proposal{change(sentence, set(sealPath(m.junctions[i].Ref), ""))}
}

// materials changes every seal of the material in junctions[i] to another.
func (m *mender) materials(i int) (out []proposal) {
	bad := materialOf(m.junctions[i].Seal)
	if bad == "" {
		return nil
	}
	for _, good := range catalog.Materials() {
		if good.Slug == bad {
			continue
		}
		var edits []design.Edit
		if m.filled.Seal == bad {
			edits = append(edits, set("seal", good.Slug))
		}
		for _, j := range m.junctions {
			path := sealPath(j.Ref)
			own, _ := m.design.Get(path)
			switch {
			case own == "" || materialOf(own) != bad:
			case own != bad: // named with the size of its joint
				edits = append(edits, set(path, strings.TrimSuffix(own, bad)+good.Slug))
			case m.filled.Seal == good.Slug:
				edits = append(edits, set(path, ""))
			default:
				edits = append(edits, set(path, good.Slug))
			}
		}
		out = append(out, change("Use "+good.Name+" seals instead.", edits...))
	}
	return out
}

// materialOf returns the material of a seal as a design names it, "" for none.
func materialOf(seal string) string {
	if _, material, ok := strings.Cut(seal, "/seal/"); ok {
		return material
	}
	if _, ok := catalog.FindMaterial(seal); ok {
		return seal
	}
	return ""
}
