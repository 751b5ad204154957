package store

// What is looked up among a kitchen's latest messages. The plus before a kitchen keeps SQLite from its index on
// kitchen and id, by which it reads and sorts all that the kitchen ever said.
const (
	heard = "SELECT " + messageColumns + ` FROM message
		WHERE +kitchen = ?1 AND n > ?2 AND n < ?3 AND (cook = ?4 OR ?4 = '') ORDER BY n DESC LIMIT 1`

	latest = "SELECT " + messageColumns + " FROM message WHERE +kitchen = ? ORDER BY n DESC LIMIT 1"

	lastLogged = "SELECT " + messageColumns + ` FROM message AS m
		WHERE +kitchen = ? AND n > ? AND cook = ? AND (rev > 0 AND (EXISTS (SELECT 1 FROM entry WHERE entry.message = m.n AND entry.rev = m.rev)
			OR EXISTS (SELECT 1 FROM lesson WHERE lesson.message = m.n AND lesson.rev = m.rev))
			OR EXISTS (SELECT 1 FROM need WHERE need.message = m.n AND need.gone = 0))
		ORDER BY n DESC LIMIT ?`

	intoDish = "SELECT " + entryColumns + ` FROM message CROSS JOIN entry ON message.n = entry.message AND message.rev = entry.rev
		WHERE message.n > ?1 AND +message.kitchen = ?2 AND entry.dish <> '' AND ?3 IN ('', entry.dish) AND entry.act IN ('use', 'claim') ORDER BY entry.message, entry.part`

	doubts = `SELECT doubt.message, doubt.by FROM doubt JOIN message ON n = doubt.message
		WHERE +kitchen = ?1 AND doubt.message < ?2 ORDER BY doubt.message DESC, part DESC LIMIT ?3`

	madeIn = `FROM entry AS made
		JOIN message ON message.n = made.message AND message.rev = made.rev`

	madeOf = `SELECT used.line, '', '' ` + madeIn + `
		JOIN entry AS used ON used.message = made.message AND used.rev = made.rev AND used.act = 'use'
		WHERE made.line = ?1 AND made.act = 'make'
		UNION ALL SELECT used.line, used.at, made.at ` + madeIn + `
		CROSS JOIN message AS into_it ON +into_it.kitchen = message.kitchen AND into_it.n BETWEEN message.n - ?2 AND message.n + ?2
		JOIN entry AS used ON used.message = into_it.n AND used.rev = into_it.rev AND used.act = 'use' AND used.dish = made.dish
		WHERE made.line = ?1 AND made.act = 'make' AND made.dish <> ''`
)
