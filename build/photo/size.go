package photo

// Size is the size of what Render would make of a picture, without decoding it. The error is a *NotAPicture, *TooLarge
// or *Broken; a picture that has a size may still turn out to be broken. It panics if maxWidth is below 1.
func Size(data []byte, maxWidth int) (w, h int, err error) {
	if maxWidth < 1 {
		panic("photo: a picture can't be less than a pixel wide")
	}
	head, err := readHead(data)
	if err != nil {
		return 0, 0, err
	}
	w, h = fitted(head.width, head.height, head.exif.turn.transposes(), maxWidth)
	if head.exif.turn.transposes() {
		w, h = h, w
	}
	return w, h, nil
}
