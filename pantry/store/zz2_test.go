package store
import ("testing";"os";"fmt";"encoding/binary")
func TestZZPages(t *testing.T) {
	b := &testing.B{}
	_ = b
	testing.Benchmark(func(b *testing.B){
		s := stocked(b)
		for range 300 { message(b, s) }
		s.writer.run("PRAGMA wal_checkpoint(TRUNCATE)")
		for range 20 { message(b, s) }
		d, _ := os.ReadFile(s.Path()+"-wal")
		n:=0
		for o := 32; o+4120 <= len(d); o += 4120 {
			fmt.Print(binary.BigEndian.Uint32(d[o:]), " ")
			n++
			if binary.BigEndian.Uint32(d[o+4:]) != 0 { fmt.Println() }
		}
		fmt.Println(n)
		rows,_ := s.db.Query("select name, rootpage from sqlite_master")
		for rows.Next() { var n string; var r int; rows.Scan(&n,&r); fmt.Println(n,r)}
	})
}
