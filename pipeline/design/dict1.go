package design

// dict1 is what both ends of a version 1 link already know: the words that
// occur in designs. DEFLATE points back into it, so that a link is about
// half as long; the commonest come last, where a pointer is shortest.
//
// It must never change: every version 1 link that was ever shared is read
// with it. Better words need a version 2 and its own dictionary beside this one.
const dict1 = `"measured":[{"part":"dairy-union/dn50/liner/length","length":"clamp/` +
	`"limits":{"suctionMargin":"","suctionRatio":"","suctionSpeed":"","fall":"1:","boreStep":" %","gap":"","spring":"","floorSpace":"150 mm"}` +
	`"site":{"altitude":"","ceiling":"2.4 m"},"seal":"fkm","seal":"ptfe","seal":"vmq","seal":"nbr","seal":"hnbr","seal":"none","seal":"epdm"` +
	`"note":"din-11866-a/dn40","din-11866-a/dn50","din-11866-a/dn65","din-11850-1/din-11866-b/dn25","asme-bpe/as-1528/iso-2037/sms-3008/` +
	`"bottom":"korbbogen","klopper","flat","cone","place":"side","above":"","stub":"","legTop":"","foot":"","legs":4,"clearance":"","stock":"","kerf":"` +
	`"aside":"","faces":"","outUp":"","outAhead":"","outSize":"","outEnd":"","kind":"none","kind":"centrifugal"` +
	`dairy-union/male","dairy-union/liner","ring-joint/male","ring-joint/liner","in":"weld","out":"weld",` +
	`{"kind":"hose","name":"{"kind":"tee","shape":"branch","shape":"run","third":"valve","third":"cap",{"kind":"ball-valve",` +
	`{"title":"","tank":{"bore":"mm","height":"mm","coneAngle":"60°","fill":"900 L","lowest":"50 mm","outlet":{"size":"bs-4825/2.5in","end":"clamp/ferrule"}},` +
	`"under":[{"kind":"reducer","to":"bs-4825/1.5in","shape":"eccentric","shape":"concentric","in":"clamp/ferrule","out":"clamp/ferrule"},` +
	`{"kind":"butterfly-valve","size":"bs-4825/3in","bs-4825/1in","bs-4825/2in","in":"clamp/ferrule","out":"clamp/ferrule"}],` +
	`"stand":{"height":" mm","bucket":"280 mm"},"run":[{"kind":"straight","length":"200 mm","fit":true,"fall":"1:80"},` +
	`"pump":{"away":"1.8 m","height":"240 mm","inSize":"bs-4825/1.5in","inEnd":"clamp/ferrule","curve":[{"flow":"0 L/min","head":"14 m","headRequired":"0.9 m"},` +
	`{"flow":"40 L/min","head":" m","headRequired":"1.0 m"},{"flow":"120 L/min","head":"10 m","headRequired":"1.5 m"}]},` +
	`"delivery":{"pieces":[{"height":"2.1 m","away":" m"},"liquid":{"kind":"sugar","strength":"4 °P","temperature":"12 °C"}}` +
	`"in":"clamp/ferrule","fit":true},{"kind":"bend","angle":"45°","turn":"180°","out":"clamp/ferrule"},{"kind":"straight","in":"clamp/ferrule","out":"clamp/ferrule","length":"`
