package store

import (
	"fmt"
	"scullion/pantry"
	"testing"
	"time"
)

func BenchmarkZZ(b *testing.B) {
	s := stocked(b)
	names := []string{"b.begin", "b.insert", "b.commit", "begin", "refresh", "hear", "revise", "answer", "commit"}
	d := map[string][]time.Duration{}
	var at time.Time
	lap := func(n string) { d[n] = append(d[n], time.Since(at)); at = time.Now() }
	for b.Loop() {
		at = time.Now()
		s.writer.exec("BEGIN IMMEDIATE")
		lap("b.begin")
		s.writer.exec("INSERT INTO bare (text) VALUES ('a row')")
		lap("b.insert")
		s.writer.exec("COMMIT")
		lap("b.commit")
		s.writer.exec("BEGIN IMMEDIATE")
		lap("begin")
		s.writer.refresh()
		lap("refresh")
		kk, err := s.writer.kitchen(boathouse)
		if err != nil {
			b.Fatal(err)
		}
		k := &book{w: s.writer, k: kk}
		n := messages.Add(1)
		m, err := k.Hear(pantry.Message{ID: fmt.Sprint("m", n), Cook: "larder", At: tuesday})
		if err != nil {
			b.Fatal(err)
		}
		lap("hear")
		if _, err := k.Revise(m, m, pantry.Said, []pantry.Entry{entry(1+n%60, pantry.Use, 1)}); err != nil {
			b.Fatal(err)
		}
		lap("revise")
		k.Answer(m, "used 1g of food in the tart", longReply)
		lap("answer")
		s.writer.exec("COMMIT")
		lap("commit")
	}
	for _, n := range names {
		b.ReportMetric(median(d[n])/1e3, n)
	}
}
