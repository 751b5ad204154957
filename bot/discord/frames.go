package discord

import (
	"encoding/binary"

	"github.com/gorilla/websocket"
)

// frames follows what a server sends over a connection, in pieces of any size, to
// the code that it closes with. Source: RFC 6455, sections 4.2.2 and 5.2.
type frames struct {
	upgraded int    // of the four characters that end the answer to the handshake
	head     []byte // of the frame that has begun
	rest     uint64 // of its payload
	code     int    // 0: not closed, or without a code
}

func (f *frames) take(p []byte) {
	const end = "\r\n\r\n"
	for len(p) > 0 {
		switch {
		case f.upgraded < len(end):
			if p[0] != end[f.upgraded] {
				f.upgraded = 0
			}
			if p[0] == end[f.upgraded] {
				f.upgraded++
			}
			p = p[1:]
		case f.rest > 0:
			n := min(f.rest, uint64(len(p)))
			f.rest, p = f.rest-n, p[n:]
		default:
			f.head, p = append(f.head, p[0]), p[1:]
			f.begin()
		}
	}
}

// begin reads the frame's head as soon as it is whole. The code is taken for part
// of it.
func (f *frames) begin() {
	if len(f.head) < 2 {
		return
	}
	size, at := uint64(f.head[1]&0x7f), 2
	switch size {
	case 126:
		at = 4
	case 127:
		at = 10
	}
	if f.head[0]&0x0f == websocket.CloseMessage && size >= 2 {
		at += 2
	}
	switch {
	case len(f.head) < at:
		return
	case size == 126:
		size = uint64(binary.BigEndian.Uint16(f.head[2:]))
	case size == 127:
		size = binary.BigEndian.Uint64(f.head[2:])
	case f.head[0]&0x0f == websocket.CloseMessage && size >= 2:
		f.code = int(binary.BigEndian.Uint16(f.head[2:]))
		size -= 2
	}
	f.rest, f.head = size, f.head[:0]
}

// mostHead is how much of a client's frame's payload is looked at.
const mostHead = 48

// frame gives the kind of a client's frame and the beginning of its payload,
// unmasked. Source: RFC 6455, section 5.2.
func frame(p []byte) (kind int, payload []byte) {
	if len(p) < 6 || p[1]&0x80 == 0 {
		return 0, nil
	}
	at := 2
	switch p[1] & 0x7f {
	case 126:
		at = 4
	case 127:
		at = 10
	}
	if len(p) < at+4 {
		return 0, nil
	}
	mask, rest := p[at:at+4], p[at+4:]
	payload = make([]byte, min(len(rest), mostHead))
	for i := range payload {
		payload[i] = rest[i] ^ mask[i%4]
	}
	return int(p[0] & 0x0f), payload
}
