package store
import ("testing";"time";"fmt";"scullion/pantry")
func BenchmarkZZ(b *testing.B) {
	s := stocked(b)
	var bares, direct, six, full, cpu []time.Duration
	s.writer.run("CREATE TABLE b2 (n INTEGER PRIMARY KEY, text TEXT NOT NULL)")
	s.writer.run("CREATE TABLE b3 (n INTEGER PRIMARY KEY, text TEXT NOT NULL)")
	s.writer.run("CREATE TABLE b4 (n INTEGER PRIMARY KEY, text TEXT NOT NULL)")
	s.writer.run("CREATE TABLE b5 (n INTEGER PRIMARY KEY, text TEXT NOT NULL)")
	for b.Loop() {
		at := time.Now()
		bare(b, s)
		bares = append(bares, time.Since(at))
		at = time.Now()
		for _, q := range []string{"BEGIN IMMEDIATE", "INSERT INTO bare (text) VALUES ('a row')","INSERT INTO b2 (text) VALUES ('a row')","INSERT INTO b3 (text) VALUES ('a row')", "INSERT INTO b4 (text) VALUES ('a row')","INSERT INTO b5 (text) VALUES ('a row')","COMMIT"} {
			if err := s.writer.exec(q); err != nil { b.Fatal(err) }
		}
		six = append(six, time.Since(at))
		n := messages.Add(1)
		at = time.Now()
		var inner time.Duration
		err := s.writer.try([]*job{{kitchen: boathouse, do: func(k pantry.Book) error {
			at := time.Now()
		m, err := k.Hear(pantry.Message{ID: fmt.Sprint("m", n), Cook: "larder", At: tuesday})
		if err != nil { return err }
		if _, err := k.Revise(m, m, pantry.Said, []pantry.Entry{entry(1+n%60, pantry.Use, 1)}); err != nil { return err }
		err= k.Answer(m, "used 1g of food in the tart", longReply)
		inner = time.Since(at)
		return err
		}}})
		if err != nil { b.Fatal(err) }
		direct = append(direct, time.Since(at))
		cpu = append(cpu, inner)
		at = time.Now()
		message(b, s)
		full = append(full, time.Since(at))
	}
	b.ReportMetric(median(bares)/1e3, "bare-µs")
	b.ReportMetric(median(six)/1e3, "five-µs")
	b.ReportMetric(median(cpu)/1e3, "cpu-µs")
	b.ReportMetric(median(direct)/1e3, "direct-µs")
	b.ReportMetric(median(full)/1e3, "message-µs")
}
