package language

import (
	"testing"

	"scullion/pantry/food"
)

func TestPictureTalk(t *testing.T) {
	r := &Reader{Foods: food.Default().Index()}
	off, on := Question{About: AboutNoPictures}, Question{About: AboutPictures}
	heardAs(t, r.PictureTalk, map[string]Question{
		"no pictures": off, "No pictures please": off, "no more pictures": off, "turn the pictures off": off, "turn off pictures": off, "pictures off": off,
		"switch the pics off please": off, "stop sending pictures": off, "stop the pictures, thanks": off, "dont send pictures": off, "don't post the pictures": off,
		"we don't need the pictures": off, "text only please": off, "no charts": off, "ok no pictures": off,
		"pictures on": on, "Pictures back on please": on, "turn the pictures on": on, "turn on the pictures": on, "switch pictures back on": on,
		"send pictures again": on, "show the pictures again": on, "bring back the pictures": on, "pictures on again": on,
	}, []string{
		"no pictures of the cake yet", "no picture", "nice pictures", "pictures are on the fridge", "turn the pictures round", "send me pictures of the tart",
		"the pictures are off", "who took the pictures", "pictures of the pass look good on the wall", "any pictures?", "no photos in the kitchen", "show the pictures to chef",
		"text me", "text only if it is urgent", "words only a mother could love", "stop taking pictures of the food", "no more pictures of mash", "turn off the oven", "put the pictures on the wall",
		"pictures", "are the pictures on?", "can you see the pictures", "dont send dee", "no pictures no proof",
	})
}
