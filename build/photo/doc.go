// Package photo makes a camera's picture fit for the site: upright, smaller, without metadata.
//
// A picture is read whole, made smaller and encoded anew as a baseline JPEG. Nothing of the file goes over
// but its pixels: the output holds the segments SOI, DQT, SOF0, DHT, SOS and EOI and no other, and a
// test walks them. So no place, time, owner, thumbnail, maker's note, profile, comment or bytes behind the
// end can pass, known kind or not: it is a list of what may be there, not of what must go.
//
// Sizes are in pixels, as the picture is seen, which is after the turn that its EXIF orientation asks for.
// What is read before: the size, from the file's head, so that a small file that claims an enormous
// picture is refused before memory is asked for; the orientation; the time of taking.
//
// JPEG, PNG and WebP are read. Refused, each with an error of its own type: other kinds (NotAPicture),
// pictures over 100 megapixels or 65 500 pixels a side (TooLarge), and what the decoder can't make sense of
// (Broken). These are faults of the picture, for the caller to report; no other error is returned.
//
// What it doesn't know: colour profiles. Samples are taken as sRGB, which most cameras write; a picture in
// a wider space (Display P3, as many telephones write) comes out a little paler than its maker
// saw it. Transparent parts are laid on white. Of a picture with several frames or layers the first is taken
// or it is refused.
//
// The same bytes in give the same bytes out, whatever the number of processors: a picture is worked on by
// one goroutine, in whole numbers. Another version of Go may encode otherwise.
//
// Sources, all from memory: orientation and times, Exif 2.32 (CIPA DC-008), tags 0x0112 and 0x9003; segments, ITU-T
// T.81 annex B; chunks, the PNG specification 11.3 with its eXIf extension, and the WebP container's (RFC 9649).
package photo
