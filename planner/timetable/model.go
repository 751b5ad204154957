package timetable

// model is a problem made ready: only what is held is listed, in tasks sorted so that none comes before what it
// follows.
type model struct {
	problem  *Problem
	tasks    []task
	order    []int32 // tasks, each after all that it follows
	capacity []int32
	setting  []bool // of each resource
	horizon  int32  // the least makespan, if there is a timetable at all, does not exceed this
	modes    bool   // some task has more than one way
	plain    bool   // serial schedule generation reaches an optimum: no windows, limits, settings or modes
	waits    bool   // some task has a weight
}

type task struct {
	ways      []way
	after     []link
	followers []int32
	earliest  int32
	latest    int32 // end
	weight    int32
}

// way is how a task may be done.
type way struct {
	minutes int32
	holds   []hold
	setting int
	cost    int32
	index   int // in Result.Mode
}

// hold says that a way takes units of a resource for its first minutes; both are above 0.
type hold struct{ resource, units, minutes int32 }

// link says that a task ends before another starts, and at most so many minutes before; negative: any.
type link struct{ task, within int32 }

func newModel(p *Problem) (*model, error) {
	if err := check(p); err != nil {
		return nil, err
	}
	m := &model{problem: p, tasks: make([]task, len(p.Tasks)), setting: make([]bool, len(p.Capacity)), plain: p.Due == 0}
	for _, c := range p.Capacity {
		m.capacity = append(m.capacity, int32(c))
	}
	copy(m.setting, p.Setting)
	last := int32(0)
	for i := range p.Tasks {
		m.readTask(i)
		t := &m.tasks[i]
		last = max(last, t.earliest)
		m.horizon += longest(t)
	}
	// In a timetable a gap in which nothing runs can be closed once every Earliest is past: nothing forbids it.
	m.horizon += last
	if p.Due > 0 {
		m.horizon = int32(min(int(m.horizon), p.Due))
	}
	m.endBy(m.horizon)
	return m, m.sort()
}

// endBy leaves out timetables that end later.
func (m *model) endBy(t int32) {
	m.horizon = min(m.horizon, t)
	for i := range m.tasks {
		m.tasks[i].latest = min(m.tasks[i].latest, m.horizon)
	}
}

func (m *model) readTask(i int) {
	from, t := &m.problem.Tasks[i], &m.tasks[i]
	t.earliest, t.weight, t.latest = int32(from.Earliest), int32(from.Weight), 2*mostMinutes
	if from.Latest > 0 {
		t.latest = int32(min(from.Latest, 2*mostMinutes))
		m.plain = false
	}
	for k, j := range from.After {
		l := link{int32(j), -1}
		if from.Within != nil && from.Within[k] >= 0 && from.Within[k] < mostMinutes {
			l.within = int32(from.Within[k])
			m.plain = false
		}
		t.after = append(t.after, l)
		m.tasks[j].followers = append(m.tasks[j].followers, int32(i))
	}
	for k := range 1 + len(from.Else) {
		if w, ok := m.readWay(modeOf(from, k)); ok {
			w.index = k
			t.ways = append(t.ways, w)
		}
	}
	if len(from.Else) > 0 {
		m.modes, m.plain = true, false
	}
	m.waits = m.waits || t.weight > 0
}

// readWay gives false where the capacities do not allow the mode.
func (m *model) readWay(from Mode) (way, bool) {
	w := way{minutes: int32(from.Minutes), setting: from.Setting, cost: int32(from.Cost)}
	for r, u := range from.Needs {
		h := hold{int32(r), int32(u), w.minutes}
		if from.For != nil && from.For[r] > 0 {
			h.minutes = int32(min(from.For[r], from.Minutes))
		}
		if h.units > m.capacity[r] {
			return w, false
		}
		if h.units == 0 || h.minutes == 0 {
			continue
		}
		w.holds = append(w.holds, h)
		m.plain = m.plain && !m.setting[r]
	}
	return w, true
}

func longest(t *task) int32 {
	most := int32(0)
	for i := range t.ways {
		most = max(most, t.ways[i].minutes)
	}
	return most
}

func shortest(t *task) int32 {
	least := t.ways[0].minutes
	for i := range t.ways {
		least = min(least, t.ways[i].minutes)
	}
	return least
}

// sort fills order, or names a task that has to wait for itself.
func (m *model) sort() error {
	waits := make([]int, len(m.tasks))
	for i := range m.tasks {
		waits[i] = len(m.tasks[i].after)
		if waits[i] == 0 {
			m.order = append(m.order, int32(i))
		}
	}
	for k := 0; k < len(m.order); k++ {
		for _, j := range m.tasks[m.order[k]].followers {
			if waits[j]--; waits[j] == 0 {
				m.order = append(m.order, j)
			}
		}
	}
	for i, w := range waits {
		if w > 0 {
			return invalid("task %d comes after itself, or after a task that does", i)
		}
	}
	return nil
}
