package pantry

// Doubt is a message that told of food which may not be safe: it stood warm, came warm, smells, or was in a fridge
// that failed; or one by which something was made of such food.
type Doubt struct {
	Message *Message
	Told    *Message // the message that told it: Message itself, or the one that told it of what Message used
}
