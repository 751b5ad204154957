package terminal

import (
	"bufio"
	"errors"
	"io"
)

// longestLine is the most bytes a line may have, without its end.
const longestLine = 1 << 20

// errTooLong is returned for a line that was too long and has been skipped.
var errTooLong = errors.New("the line is longer than 1 MiB")

// lines reads one line at a time and never keeps more than the longest in
// memory.
type lines struct {
	r       *bufio.Reader
	longest int
}

func newLines(r io.Reader) lines { return lines{bufio.NewReaderSize(r, 64<<10), longestLine} }

// next gives the next line without its end ("\n" or "\r\n"); the last one may
// lack it. The error is io.EOF after the last line, errTooLong for a line that
// was skipped, or what the reader said.
func (l lines) next() (string, error) {
	var line []byte
	for {
		part, err := l.r.ReadSlice('\n')
		if len(line) <= l.longest+2 {
			line = append(line, part...)
		}
		if err == bufio.ErrBufferFull {
			continue
		}
		if err != nil && (err != io.EOF || len(line) == 0) {
			return "", err
		}
		if line = trimEnd(line); len(line) > l.longest {
			return "", errTooLong
		}
		return string(line), nil
	}
}

func trimEnd(line []byte) []byte {
	for _, end := range []byte{'\n', '\r'} {
		if n := len(line); n > 0 && line[n-1] == end {
			line = line[:n-1]
		}
	}
	return line
}
