package photo

import (
	"encoding/binary"
	"time"
)

// exif is what is wanted of a picture's EXIF: nothing else is read, and nothing is kept.
type exif struct {
	turn  turn
	taken time.Time
}

// Tags and types of Exif 2.32, from memory.
const (
	tagOrientation = 0x0112
	tagExifIFD     = 0x8769
	tagTaken       = 0x9003 // DateTimeOriginal, in the Exif directory
	typeASCII      = 2
	typeShort      = 3
	typeLong       = 4
	maxEntries     = 1000 // of one directory; cameras write some dozens
)

// readEXIF reads a TIFF structure. It follows two offsets at most (the first directory and its Exif
// directory, never the one of the thumbnail, which has an orientation of its own), so that no
// circle can hold it. What is missing or makes no sense counts as not said: upright, no time.
func readEXIF(tiff []byte) exif {
	e := exif{turn: upright}
	if len(tiff) < 8 {
		return e
	}
	var order binary.ByteOrder
	switch string(tiff[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return e
	}
	first := int64(order.Uint32(tiff[4:]))
	if v, ok := lookUp(tiff, order, first, tagOrientation); ok && v.count == 1 {
		if n := v.number(order); n >= 1 && n <= 8 {
			e.turn = turn(n)
		}
	}
	if v, ok := lookUp(tiff, order, first, tagExifIFD); ok && v.kind == typeLong && v.count == 1 {
		if taken, ok := lookUp(tiff, order, int64(v.number(order)), tagTaken); ok {
			e.taken = taken.time(tiff, order)
		}
	}
	return e
}

// value is an entry of a directory; raw is the four bytes that hold a short value or the offset of a long one.
type value struct {
	kind  uint16
	count uint32
	raw   []byte
}

// lookUp finds a tag in the directory at an offset.
func lookUp(tiff []byte, order binary.ByteOrder, at int64, tag uint16) (value, bool) {
	if at < 8 || at+2 > int64(len(tiff)) {
		return value{}, false
	}
	n := int64(min(order.Uint16(tiff[at:]), maxEntries))
	for i := range n {
		entry := at + 2 + 12*i
		if entry+12 > int64(len(tiff)) {
			break
		}
		b := tiff[entry : entry+12]
		if order.Uint16(b) == tag {
			return value{order.Uint16(b[2:]), order.Uint32(b[4:]), b[8:12]}, true
		}
	}
	return value{}, false
}

// number is a short or long value, 0 for any other type.
func (v value) number(order binary.ByteOrder) uint32 {
	switch v.kind {
	case typeShort:
		return uint32(order.Uint16(v.raw))
	case typeLong:
		return order.Uint32(v.raw)
	}
	return 0
}

// time reads "2026:04:06 18:30:00" and its closing zero byte.
func (v value) time(tiff []byte, order binary.ByteOrder) time.Time {
	const layout = "2006:01:02 15:04:05"
	at := int64(order.Uint32(v.raw))
	if v.kind != typeASCII || int(v.count) < len(layout) || at+int64(len(layout)) > int64(len(tiff)) {
		return time.Time{}
	}
	t, err := time.Parse(layout, string(tiff[at:at+int64(len(layout))]))
	if err != nil {
		return time.Time{}
	}
	return t
}
