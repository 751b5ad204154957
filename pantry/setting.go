package pantry

// A setting is how a kitchen wants a thing of the program's to be: "pictures" "off". It is taught as a
// Lesson whose cells say so, so that an undo, an edit or a delete takes it back as any other.

// SettingLesson is a setting as it is taught.
func SettingLesson(name, to string) Lesson {
	return Lesson{Name: name, Cells: map[string]string{"name": name, "setting": to}}
}

// Setting gives what a lesson sets a thing to; ok is false where it is no setting.
func (l Lesson) Setting() (to string, ok bool) {
	to, ok = l.Cells["setting"]
	return to, ok
}

// Setting gives what a thing was last set to; "" where nobody has said.
func (k *Kitchen) Setting(name string) (to string) {
	for _, l := range k.Lessons {
		if x, ok := l.Setting(); ok && l.Name == name {
			to = x
		}
	}
	return to
}
