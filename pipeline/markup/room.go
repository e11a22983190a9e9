package markup

import "sync"

// A page is written anew at every keystroke, each part of it about as long as
// the last time. Room that grew for one is kept for the next: to grow it again
// would make four times as much garbage as there is markup.
var room struct {
	sync.Mutex
	b []byte // the largest that was given back, empty
}

// takeRoom returns room to write into; it is nobody else's.
func takeRoom() []byte {
	room.Lock()
	b := room.b
	room.b = nil
	room.Unlock()
	return b
}

// giveRoom gives room back when what was written has been copied out of it.
func giveRoom(b []byte) {
	room.Lock()
	if cap(b) > cap(room.b) {
		room.b = b[:0]
	}
	room.Unlock()
}
