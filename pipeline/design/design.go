// Package design holds what a person said about a plant, in the words and
// units they used, and nothing derived from it. A Design is the only thing
// that is saved or shared.
//
// Every field has a path, the names of its JSON members joined by dots:
// "tank.bore", "under.2.size", "pump.curve.0.flow". Faults, edits, verdicts
// and form fields all speak of a field by its path. Lists count from 0 in a
// path; sentences for people count from 1.
//
// An empty field means "the usual": the zero Design is read with the defaults
// written beside each field, and a saved design leaves such fields out.
package design

import q "drawoff/pipeline/quantity"

// Design is a plant: a tank, what hangs under it, the run to the pump, the
// pump and the delivery.
type Design struct {
	Title    string              `json:"title,omitempty"`
	Note     string              `json:"note,omitempty"`
	Date     string              `json:"date,omitempty"` // of the sheets that are printed, as typed
	Tank     Tank                `json:"tank,omitzero"`
	Under    []Piece             `json:"under,omitempty"` // from the outlet face down, in order
	Stand    Stand               `json:"stand,omitzero"`
	Run      []Piece             `json:"run,omitempty"` // from the end of Under to the pump inlet, or to the delivery when there is no pump
	Pump     Pump                `json:"pump,omitzero"`
	Delivery Delivery            `json:"delivery,omitzero"`
	Liquid   Liquid              `json:"liquid,omitzero"`
	Site     Site                `json:"site,omitzero"`
	Cleaning []Cleaning          `json:"cleaning,omitempty"` // the steps of its wash, in order; default: UsualCleaning
	Wash     Wash                `json:"wash,omitzero"`      // how these are run
	Vent     Vent                `json:"vent,omitzero"`      // how the tank breathes
	Seal     string              `json:"seal,omitempty"`     // seal material used where a piece names none: a catalog.Material slug; default epdm
	Finish   q.Entered[q.Length] `json:"finish,omitzero"`    // Ra of every bore of metal; default 0.8 µm
	Limits   Limits              `json:"limits,omitzero"`
	Measured []Measurement       `json:"measured,omitempty"` // dimensions taken by caliper, which replace the catalogue's
	Made     []Made              `json:"made,omitempty"`     // parts made up by the user, to be used again; none of them is in a line
	KeepOuts []KeepOut           `json:"keepOuts,omitempty"` // what a run that is found must go round; default: nothing
	Finder   Finder              `json:"finder,omitzero"`    // what is wished of a run that is found
	Assumed  []Assumption        `json:"assumed,omitempty"`  // what nobody has said yet
}

// KeepOut is a box that no run may touch: a wall, a brace, a gully, a walkway.
// Its corner is the one nearest to the tank, to the right and to the floor,
// seen from the tank's axis towards the pump.
type KeepOut struct {
	Name  string              `json:"name,omitempty"`
	Away  q.Entered[q.Length] `json:"away,omitzero"`  // its near side from the tank's axis, towards the pump; negative: behind; default 0
	Aside q.Entered[q.Length] `json:"aside,omitzero"` // its right side to the left of that line; negative: right; default 0
	Above q.Entered[q.Length] `json:"above,omitzero"` // its underside over the floor; default 0
	Long  q.Entered[q.Length] `json:"long"`           // away from the tank
	Wide  q.Entered[q.Length] `json:"wide"`           // across that
	High  q.Entered[q.Length] `json:"high"`
}

// Finder is what is wished of a run that is found. It changes nothing about
// the run that is there.
type Finder struct {
	Size     string              `json:"size,omitempty"`    // tube slug; default: the pump inlet's
	Other    string              `json:"other,omitempty"`   // another tube to try; default: none
	Joints   string              `json:"joints,omitempty"`  // at bends: welded, unions, or orbital: welded, bends of 88° and 92° take up the fall; default: the first two are tried
	Valve    string              `json:"valve,omitempty"`   // a butterfly valve: none (default), start or end
	Straight q.Entered[q.Length] `json:"straight,omitzero"` // least straight tube between bends, for the weld head; default: one tube diameter
	Longest  q.Entered[q.Length] `json:"longest,omitzero"`  // longest piece between unions, to be stripped and carried; default 2 m
	Fall     q.Entered[q.Slope]  `json:"fall,omitzero"`     // laid to; default: the least fall of Limits
	Enters   string              `json:"enters,omitempty"`  // how a run to the outflow comes in: above or side; default: as the line there does, from above where there is none
	Faces    q.Entered[q.Angle]  `json:"faces,omitzero"`    // from the side: plan bearing that the inlet there faces, as Pump.Faces; default: as the line there runs
	Room     q.Entered[q.Length] `json:"room,omitzero"`     // free between the tube and what it goes round; default 10 mm
}

// Tank is the vessel, open to the air, standing upright. Heights inside it
// are measured from the lowest inside point of its bottom.
type Tank struct {
	Bore      q.Entered[q.Length] `json:"bore,omitzero"`      // inside diameter of the shell
	Height    q.Entered[q.Length] `json:"height,omitzero"`    // straight side of the shell
	Bottom    string              `json:"bottom,omitempty"`   // cone (default), klopper, korbbogen, flat
	ConeAngle q.Entered[q.Angle]  `json:"coneAngle,omitzero"` // full included angle; default 60°
	Fill      q.Entered[q.Volume] `json:"fill,omitzero"`      // liquid in the tank when full; default brimful less 10 %
	Lowest    q.Entered[q.Length] `json:"lowest,omitzero"`    // level over the outlet at which the transfer is stopped; default 50 mm
	Outlet    Outlet              `json:"outlet,omitzero"`
	Wall      q.Entered[q.Length] `json:"wall,omitzero"`   // of shell and bottom; default 2 mm
	Manway    q.Entered[q.Length] `json:"manway,omitzero"` // where it is reached into, over the lowest inside point; default: its brim
	Seam      q.Entered[q.Length] `json:"seam,omitzero"`   // weld gap at the seam of a cone; default 1 mm
}

// Outlet is where the liquid leaves the tank, and the end welded there.
type Outlet struct {
	Place string              `json:"place,omitempty"` // bottom (default) or side
	Above q.Entered[q.Length] `json:"above,omitzero"`  // side outlet: its centre above the lowest inside point
	Stub  q.Entered[q.Length] `json:"stub,omitzero"`   // from the tank to the outlet face, the end included; default 40 mm
	Fall  q.Entered[q.Slope]  `json:"fall,omitzero"`   // side outlet: welded to fall outwards; default level
	Size  string              `json:"size,omitempty"`  // tube slug, "bs-4825/2.5in"
	End   string              `json:"end,omitempty"`   // End slug; default "weld"
}

// Stand is how the tank is held up. All heights are above the floor.
type Stand struct {
	Height    q.Entered[q.Length] `json:"height,omitzero"`    // of the outlet face (a side outlet: of its centre); default: the least that every need allows
	LegTop    q.Entered[q.Length] `json:"legTop,omitzero"`    // top end of the legs above the outlet face; default: where they meet the tank
	Foot      q.Entered[q.Length] `json:"foot,omitzero"`      // height of the foot under the leg tube; default 0
	Legs      int                 `json:"legs,omitempty"`     // 3 to 6; default 3
	Bucket    q.Entered[q.Length] `json:"bucket,omitzero"`    // height of what must stand under the stack; default: nothing
	Clearance q.Entered[q.Length] `json:"clearance,omitzero"` // free height over the bucket; default 20 mm
	Stock     q.Entered[q.Length] `json:"stock,omitzero"`     // stock length the legs are cut from; default 6 m
	Kerf      q.Entered[q.Length] `json:"kerf,omitzero"`      // width of the saw cut; default 2.5 mm

	Access   q.Entered[q.Length] `json:"access,omitzero"`    // height of a jack or pallet truck that must pass under the stack; default: none
	LegOD    q.Entered[q.Length] `json:"legOD,omitzero"`     // outside diameter of the leg tube; default 48.3 mm
	LegWall  q.Entered[q.Length] `json:"legWall,omitzero"`   // of the tube of legs and braces; default 2 mm
	Feet     q.Entered[q.Length] `json:"feet,omitzero"`      // tank's axis to the middle of a foot, on the floor; default: legs that meet the tank flush with its shell
	Splay    q.Entered[q.Angle]  `json:"splay,omitzero"`     // of the legs from upright, feet outwards; default 0°
	Brace    string              `json:"brace,omitempty"`    // none (default) or diagonal: from foot to top, between all legs
	BraceOD  q.Entered[q.Length] `json:"braceOD,omitzero"`   // outside diameter of a brace; default 33.7 mm
	Pad      q.Entered[q.Length] `json:"pad,omitzero"`       // diameter of a foot on the floor; default 60 mm
	Adjust   q.Entered[q.Length] `json:"adjust,omitzero"`    // how far a foot screws out beyond Foot; default 0
	Castors  q.Entered[q.Length] `json:"castors,omitzero"`   // how far a castor's wheel trails behind its swivel; default: no castors
	Anchored bool                `json:"anchored,omitempty"` // the feet are fixed to the floor, or the tank to a wall
	Load     q.Entered[q.Mass]   `json:"load,omitzero"`      // on the tank beside its own steel: lid, jacket, agitator; default 0
}

// Piece is one thing in a line. Which fields count depends on its Kind; the
// others are kept but have no effect.
type Piece struct {
	Kind   string              `json:"kind"`
	Name   string              `json:"name,omitempty"`   // the user's own name for it
	Size   string              `json:"size,omitempty"`   // tube slug at its upstream end; default: as the end before it
	To     string              `json:"to,omitempty"`     // reducer: tube slug at its downstream end
	Shape  string              `json:"shape,omitempty"`  // bend: short or long; reducer: concentric or eccentric; tee: run or branch
	In     string              `json:"in,omitempty"`     // End at the upstream side; default weld
	Out    string              `json:"out,omitempty"`    // End at the downstream side; default weld
	Third  string              `json:"third,omitempty"`  // tee, cross: what is on the open port: cap (default) or valve
	Fourth string              `json:"fourth,omitempty"` // cross: what is on the port across from that: cap (default) or valve
	Seal   string              `json:"seal,omitempty"`   // seal at its upstream joint: a material slug, a seal slug of another joint, or "none"; default: Design.Seal in the right size
	Length q.Entered[q.Length] `json:"length,omitzero"`  // straight: cut length; hose, valve, sight glass, device: over its ends, as it is bought; reducer: over its weld ends
	Fit    bool                `json:"fit,omitempty"`    // straight or hose: make its length whatever closes the gap
	Angle  q.Entered[q.Angle]  `json:"angle,omitzero"`   // bend: default 90°
	Turn   q.Entered[q.Angle]  `json:"turn,omitzero"`    // bend, eccentric reducer's flat side, tee's branch, cross's open port, seat valve's outlet: see below
	Fall   q.Entered[q.Slope]  `json:"fall,omitzero"`    // straight: laid to this fall, the spring taken up in the joint before it

	Open      q.Entered[q.Angle]    `json:"open,omitzero"`      // butterfly or ball valve: how far it is open; default 90°, fully
	Share     q.Entered[q.Fraction] `json:"share,omitzero"`     // tee: part of the combined flow that leaves (minus: joins) at the third port; default 0 %
	Lining    string                `json:"lining,omitempty"`   // hose: what its bore is made of, a catalog.Material slug; default: not told
	Roughness q.Entered[q.Length]   `json:"roughness,omitzero"` // hose: of its bore, as equivalent sand grain; default 0.01 mm
	Suction   bool                  `json:"suction,omitempty"`  // hose: made to stand a vacuum
	Kv        q.Entered[q.Number]   `json:"kv,omitzero"`        // device or valve: m³/h of water that drop 1 bar over it, fully open
	Drops     []DropPoint           `json:"drops,omitempty"`    // what has a body (Kind.Drops): points of its data sheet or measured, as it is set; they count before Kv and any formula
	DropsIn   string                `json:"dropsIn,omitempty"`  // what those were taken with: water (default), or the plant's own liquid

	Prepared bool `json:"prepared,omitempty"` // one of the two ends at its upstream weld is turned or expanded to match the other
}

// DropPoint is the pressure that a piece drops at a flow.
type DropPoint struct {
	Flow q.Entered[q.Flow]     `json:"flow"`
	Drop q.Entered[q.Pressure] `json:"drop"`
}

// Turn is counted clockwise by somebody looking along the flow. Where the
// flow runs more or less level, 0° points up, 90° to the right, 180° down.
// Where it runs steeper than 60° it has no up, and 0° points in plan from
// the tank towards the pump, 90° to the right of that (flow running down).

// The kinds of piece.
const (
	Straight  = "straight"
	Bend      = "bend"
	Reducer   = "reducer" // or enlarger: To may be the larger
	Tee       = "tee"
	Butterfly = "butterfly-valve"
	Ball      = "ball-valve"
	Hose      = "hose"
	Device    = "device" // a plate cooler, a filter, a meter: anything known by what it drops

	Cross      = "cross" // straight through, a branch to either side
	Cap        = "cap"   // a blank end: it closes the line
	SightGlass = "sight-glass"
	Seat       = "seat-valve" // its two ports at a right angle
	Diaphragm  = "diaphragm-valve"
	NonReturn  = "non-return-valve"
	Pocket     = "thermometer-pocket" // on a short branch of a tube that runs through
	Cock       = "sample-cock"        // as the pocket
)

// Ends: a plain end to weld, or half of a union, "family/half".
const Weld = "weld"

// Pump is what draws the liquid off. Its place is seen from the tank's
// axis: Away towards the pump, Aside to the left of that line.
type Pump struct {
	Kind     string              `json:"kind,omitempty"`  // centrifugal (default), flexible-impeller, lobe, peristaltic, or none: the liquid runs by gravity
	Away     q.Entered[q.Length] `json:"away,omitzero"`   // inlet face from the tank's axis, level
	Aside    q.Entered[q.Length] `json:"aside,omitzero"`  // inlet face to the left (negative: right); default 0
	Height   q.Entered[q.Length] `json:"height,omitzero"` // inlet centre above the floor
	Faces    q.Entered[q.Angle]  `json:"faces,omitzero"`  // plan bearing that the inlet faces, counter-clockwise from "towards the tank"; default 0°
	InSize   string              `json:"inSize,omitempty"`
	InEnd    string              `json:"inEnd,omitempty"`
	Seal     string              `json:"seal,omitempty"`    // at the inlet joint, as Piece.Seal
	OutUp    q.Entered[q.Length] `json:"outUp,omitzero"`    // outlet face above the inlet centre; default 0
	OutAhead q.Entered[q.Length] `json:"outAhead,omitzero"` // outlet face beyond the inlet face, away from it; default 0
	OutSize  string              `json:"outSize,omitempty"` // default: as InSize
	OutEnd   string              `json:"outEnd,omitempty"`  // default: as InEnd
	Curve    []CurvePoint        `json:"curve,omitempty"`   // centrifugal

	Slip    []SlipPoint           `json:"slip,omitempty"`   // positive: flexible impeller, lobe, peristaltic
	Rated   q.Entered[q.Rotation] `json:"rated,omitzero"`   // speed that the points were taken at; only needed where Speed is another
	Speed   q.Entered[q.Rotation] `json:"speed,omitzero"`   // that it is run at; default: as Rated
	DryLift q.Entered[q.Head]     `json:"dryLift,omitzero"` // of water at sea level that it draws up with air in its line; default: it does not prime itself
	Casing  q.Entered[q.Volume]   `json:"casing,omitzero"`  // what its casing keeps when the lines have run off; default 0.5 L
	Relief  q.Entered[q.Pressure] `json:"relief,omitzero"`  // positive pump: difference at which its relief valve or bypass opens; default: there is none
}

// CurvePoint is a point of a centrifugal pump's published curve.
type CurvePoint struct {
	Flow         q.Entered[q.Flow]     `json:"flow"`
	Head         q.Entered[q.Head]     `json:"head"`
	HeadRequired q.Entered[q.Head]     `json:"headRequired,omitzero"` // suction head required (NPSHr)
	Efficiency   q.Entered[q.Fraction] `json:"efficiency,omitzero"`   // of hydraulic to shaft power
}

// SlipPoint is a point of a positive pump's sheet: it pushes out less as the
// pressure makes more slip back.
type SlipPoint struct {
	Pressure     q.Entered[q.Pressure] `json:"pressure"` // outlet less inlet
	Flow         q.Entered[q.Flow]     `json:"flow"`
	HeadRequired q.Entered[q.Head]     `json:"headRequired,omitzero"` // suction head required (NPSHr)
	Efficiency   q.Entered[q.Fraction] `json:"efficiency,omitzero"`   // of hydraulic to shaft power
}

// Delivery is the line from the pump outlet, which points up, to where the
// liquid comes out.
type Delivery struct {
	Pieces []Piece             `json:"pieces,omitempty"`
	Height q.Entered[q.Length] `json:"height,omitzero"` // of the outflow or of the level it enters, whichever is higher, above the floor
	Away   q.Entered[q.Length] `json:"away,omitzero"`   // of the outflow from the tank's axis; default: wherever the pieces end
	Aside  q.Entered[q.Length] `json:"aside,omitzero"`  // and how far to the left of the way from the tank to the pump, negative: right; default: wherever the pieces end
	Flow   q.Entered[q.Flow]   `json:"flow,omitzero"`   // wanted at the outflow; default: whatever runs
}

// Liquid is what is in the tank. Which fields count depends on its Kind; the
// others are kept but have no effect.
type Liquid struct {
	Kind           string                   `json:"kind,omitempty"`          // water (default), sugar, fermented, spirits, milk, skim, cream, whey, caustic, nitric, phosphoric, peracetic, other, power-law or bingham
	Strength       q.Entered[q.Strength]    `json:"strength,omitzero"`       // sugar: as typed; fermented: the real extract left; caustic and acids: part by mass
	Alcohol        q.Entered[q.Fraction]    `json:"alcohol,omitzero"`        // fermented, spirits: by volume; default 6 % and 40 %
	Fat            q.Entered[q.Fraction]    `json:"fat,omitzero"`            // milk, skim, cream: by mass; default 4 %, 0.1 % and 30 %
	Density        q.Entered[q.Density]     `json:"density,omitzero"`        // other, power-law, bingham
	Viscosity      q.Entered[q.Viscosity]   `json:"viscosity,omitzero"`      // other; bingham: the plastic viscosity
	Consistency    q.Entered[q.Consistency] `json:"consistency,omitzero"`    // power-law: K
	Index          q.Entered[q.Number]      `json:"index,omitzero"`          // power-law: n
	Yield          q.Entered[q.Pressure]    `json:"yield,omitzero"`          // bingham: the yield stress
	VapourPressure q.Entered[q.Pressure]    `json:"vapourPressure,omitzero"` // other, power-law, bingham: absolute; default: water's
	Medium         string                   `json:"medium,omitempty"`        // other, power-law, bingham: what it is to a seal; default unlike
	Temperature    q.Entered[q.Temperature] `json:"temperature,omitzero"`    // default 20 °C
}

// Cleaning is one step of a wash: what the line and the tank are cleaned with.
type Cleaning struct {
	Agent       string                   `json:"agent"`                // a catalog.Agent slug: water, hot-water, caustic, ...
	Temperature q.Entered[q.Temperature] `json:"temperature,omitzero"` // default: what is usual for the agent
	Strength    q.Entered[q.Fraction]    `json:"strength,omitzero"`    // of the pure agent, by mass; default: what is usual for it
	Time        q.Entered[q.Duration]    `json:"time,omitzero"`        // that it runs; default: what is usual for it
}

// Wash is how the steps of Cleaning are run through the line and the tank.
type Wash struct {
	Speed    q.Entered[q.Velocity]    `json:"speed,omitzero"`    // least, in the widest bore of the line; default 1.5 m/s
	Flow     q.Entered[q.Flow]        `json:"flow,omitzero"`     // of a pump that is taken for the wash; default: none, it runs as the liquid does
	Spray    q.Entered[q.Flow]        `json:"spray,omitzero"`    // of the spray ball; default: 35 L/min for each metre of the tank's circumference
	Pressure q.Entered[q.Pressure]    `json:"pressure,omitzero"` // that the spray ball needs, over the air's; default 1 bar
	Scavenge q.Entered[q.Flow]        `json:"scavenge,omitzero"` // of a pump that draws the wash off the tank; default: none, it runs off by gravity
	Sump     q.Entered[q.Volume]      `json:"sump,omitzero"`     // left in the vessel that the wash is drawn from while it goes round; default 30 L
	Supply   q.Entered[q.Temperature] `json:"supply,omitzero"`   // of the water that it is made with; default 10 °C
	Element  q.Entered[q.Power]       `json:"element,omitzero"`  // what heats it; default: not told
	Rinses   q.Entered[q.Number]      `json:"rinses,omitzero"`   // times that a rinse displaces what the line holds, at least; default 3
}

// Vent is how the tank breathes.
type Vent struct {
	Bore     q.Entered[q.Length]   `json:"bore,omitzero"`     // of its one opening to the air; default: not told
	Pressure q.Entered[q.Pressure] `json:"pressure,omitzero"` // that the tank may be over or under the air's; default 0.25 kPa
	Fill     q.Entered[q.Flow]     `json:"fill,omitzero"`     // that the tank is filled at; default: as the most that leaves it
}

// Site is where the plant stands.
type Site struct {
	Altitude q.Entered[q.Length] `json:"altitude,omitzero"` // above the sea; default 0
	Ceiling  q.Entered[q.Length] `json:"ceiling,omitzero"`  // free height over the floor; default: not checked

	Door      q.Entered[q.Length] `json:"door,omitzero"`      // free height of the door that the tank comes in by; default: not checked
	DoorWidth q.Entered[q.Length] `json:"doorWidth,omitzero"` // and its free width; default: not checked
	FloorFall q.Entered[q.Slope]  `json:"floorFall,omitzero"` // of the floor under the stand; default level
	Uneven    q.Entered[q.Length] `json:"uneven,omitzero"`    // how far that floor is out of flat under one foot; default 5 mm
}

// Limits are what the user holds the plant to, where the usual limit is not theirs.
type Limits struct {
	SuctionMargin q.Entered[q.Head]     `json:"suctionMargin,omitzero"` // suction head over what the pump requires; default 0.6 m
	SuctionRatio  q.Entered[q.Number]   `json:"suctionRatio,omitzero"`  // suction head as a multiple of what the pump requires; default 1.1
	SuctionSpeed  q.Entered[q.Velocity] `json:"suctionSpeed,omitzero"`  // fastest in the suction line; default 2.4 m/s
	Fall          q.Entered[q.Slope]    `json:"fall,omitzero"`          // least fall of a line that must drain; default 1:100
	BoreStep      q.Entered[q.Fraction] `json:"boreStep,omitzero"`      // step at a joint as a part of the thinner wall; default 15 %
	Gap           q.Entered[q.Length]   `json:"gap,omitzero"`           // what may be left open where a line should meet; default 1 mm
	Spring        q.Entered[q.Angle]    `json:"spring,omitzero"`        // angle that a joint may be sprung; default 1.5°
	FloorSpace    q.Entered[q.Length]   `json:"floorSpace,omitzero"`    // free height under everything for cleaning; default 150 mm
	Tip           q.Entered[q.Angle]    `json:"tip,omitzero"`           // incline that the stand must not tip on; default 10°
	Reach         q.Entered[q.Length]   `json:"reach,omitzero"`         // highest over the floor that somebody works at; default: not checked
	DeadEnd       q.Entered[q.Number]   `json:"deadEnd,omitzero"`       // longest branch that nothing flows through, from the inner wall, in its own bores; default 2
	DrainTime     q.Entered[q.Duration] `json:"drainTime,omitzero"`     // that a line is left to run off; default 5 min
}

// Measurement is a dimension of a catalogue part that the user took with a caliper.
type Measurement struct {
	Part   string              `json:"part"` // slug of the dimension: "ring-joint/2in/liner/length"
	Length q.Entered[q.Length] `json:"length"`
}
