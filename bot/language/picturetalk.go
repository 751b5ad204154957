package language

import (
	_ "embed"
	"sync"
)

//go:embed picturetalk.csv
var pictureTalkCSV []byte

var pictureTalk = sync.OnceValue(func() *asking { return embedded("picturetalk.csv", pictureTalkCSV) })

// What may be said of the pictures that come with answers.
const (
	AboutPictures   About = "pictures"   // they are to come
	AboutNoPictures About = "nopictures" // they are not
)

// PictureTalk reads a message that switches pictures on or off; nil where it does neither.
func (r *Reader) PictureTalk(text string) *Question { return r.talked(text, pictureTalk()) }
