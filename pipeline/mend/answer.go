package mend

import (
	"drawoff/pipeline/clean"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/order"
	"drawoff/pipeline/pressure"
	"drawoff/pipeline/stand"
	"drawoff/pipeline/vent"
)

// answers returns what may answer v, the simplest first; nil where nothing
// here does: a dimension that is to be measured, a sheet that says too little,
// a liquid that no formula covers. It is a function, since a map would be
// made, and linked, wherever the package is imported.
func answers(v finding.Verdict) func(*mender) []proposal {
	switch v.Rule {
	// How parts mate.
	case joint.RuleHalves:
		return joined(func(m *mender, i int) []proposal { return append(m.turned(i), m.mated(i)...) })
	case joint.RuleFamily, joint.RuleLookalike, joint.RuleSize:
		return joined((*mender).mated)
	case joint.RuleStep:
		return joined(func(m *mender, i int) []proposal { return append(m.level(i), m.mated(i)...) })
	case joint.RuleMissing, joint.RuleSealSize:
		return joined((*mender).usualSeal)
	case joint.RuleMedium, joint.RuleTemperature, joint.RuleCleaning:
		return joined((*mender).materials)
	case joint.RulePressure:
		return joined((*mender).stronger)
	case joint.RuleStrip:
		return joined((*mender).clamps)
	case "union-for-product":
		return joined((*mender).hygienic)
	case "tube-for-product":
		return (*mender).retubed
	case "line-closed":
		return (*mender).uncapped

	// How it stands.
	case stand.RuleHeight:
		return (*mender).height
	case stand.RuleFloor:
		return (*mender).floor
	case stand.RuleBucket:
		return (*mender).bucket
	case stand.RuleCeiling:
		return (*mender).ceiling
	case stand.RuleLegs:
		return (*mender).legs
	case stand.RuleReach:
		return (*mender).reach
	case stand.RuleDoor:
		return (*mender).door
	case stand.RuleTip, stand.RulePush:
		return (*mender).tip
	case stand.RuleRock:
		return (*mender).rock
	case stand.RuleLoad:
		return (*mender).load
	case stand.RuleBracket:
		return (*mender).under

	// How it flows.
	case "suction-speed":
		return func(m *mender) []proposal {
			return append(append(m.outletAsLine(true), m.slow()...), m.wider(suction)...)
		}
	case "surge", "device-range":
		return (*mender).slow
	case "air-drawn":
		return (*mender).air
	case "suction-margin":
		if v.Limit == nil {
			return nil // the sheet does not say what the pump requires
		}
		return (*mender).suction
	case "wanted-flow":
		return (*mender).wanted
	case "pump-range":
		switch {
		case v.Level == finding.Stop && v.Limit == nil:
			return (*mender).warm // too thick
		case v.Limit == nil:
			return nil // there is no curve
		}
		return (*mender).curve
	case "pump-speed":
		return (*mender).speed
	case "gravity-flow":
		return (*mender).runs
	case "self-venting":
		return (*mender).throttle
	case "flooded-line":
		return (*mender).fills
	case "flow-regime":
		return (*mender).regime
	case "relief-valve":
		return (*mender).relief
	case "non-return-opens":
		return (*mender).opens
	case "boiling":
		return (*mender).cool
	case pressure.RuleLine:
		return func(m *mender) []proposal { return append(append(m.cool(), m.slow()...), m.throttle()...) }
	case "over-the-top":
		return func(m *mender) []proposal { return m.raise(0) }
	case "pump-stops":
		return (*mender).shuts
	case "thick-liquid":
		return (*mender).warm
	case "liquid-range":
		return (*mender).mild

	// How it is washed, and breathes.
	case clean.RuleSpeed:
		return (*mender).washSpeed
	case clean.RuleSuction, pressure.RuleWash:
		return (*mender).washSuction
	case clean.RuleSpray:
		return (*mender).spray
	case clean.RuleRunoff:
		return (*mender).runoff
	case vent.RuleVent:
		return (*mender).vent
	case joint.RuleLining, clean.RuleHose:
		return (*mender).linings

	// How it lies and drains.
	case "meets-pump", "meets-delivery":
		return (*mender).meet
	case "spring":
		return (*mender).sprung
	case "fall":
		return (*mender).fall
	case "low-point", "stays-behind":
		return func(m *mender) []proposal { return m.pocket("180°", "a drain valve that points down") }
	case "high-point", "air-carried":
		return func(m *mender) []proposal { return m.pocket("0°", "a valve that points up and lets the air out") }
	case "reducer-step":
		return (*mender).flatSide
	case "body-holds":
		return (*mender).body
	case order.RuleCut:
		return (*mender).room
	}
	return nil
}
