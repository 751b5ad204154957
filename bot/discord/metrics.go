package discord

import (
	"net/http"
	"strconv"
	"sync/atomic"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"scullion/bot"
)

// Metrics counts what goes on, for Prometheus. Names follow its conventions:
// base units, counters end in _total.
type Metrics struct {
	all        *prometheus.Registry
	events     *prometheus.CounterVec
	messages   *prometheus.CounterVec
	entries    prometheus.Counter
	asks       prometheus.Counter
	settling   prometheus.Histogram
	answering  prometheus.Histogram
	overhead   prometheus.Histogram
	respond    prometheus.Histogram
	calls      *prometheus.HistogramVec
	rooms      prometheus.Gauge
	waiting    prometheus.Gauge
	unsent     prometheus.Gauge
	connected  prometheus.Gauge
	reconnects prometheus.Counter
	logins     prometheus.Counter
	retries    prometheus.Counter
	refused    prometheus.Counter
	faults     prometheus.Counter

	blind atomic.Bool
}

// spans are the bounds of latency histograms, in seconds.
var spans = []float64{.0005, .001, .0025, .005, .01, .025, .05, .1, .25, .5, 1, 2.5, 5, 10}

// NewMetrics makes counters of their own, which Handler shows.
func NewMetrics() *Metrics {
	m := &Metrics{all: prometheus.NewRegistry()}
	counter := func(name, help string) prometheus.Counter {
		c := prometheus.NewCounter(prometheus.CounterOpts{Namespace: "scullion", Name: name, Help: help})
		m.all.MustRegister(c)
		return c
	}
	gauge := func(name, help string) prometheus.Gauge {
		g := prometheus.NewGauge(prometheus.GaugeOpts{Namespace: "scullion", Name: name, Help: help})
		m.all.MustRegister(g)
		return g
	}
	counters := func(name, help, label string) *prometheus.CounterVec {
		c := prometheus.NewCounterVec(prometheus.CounterOpts{Namespace: "scullion", Name: name, Help: help}, []string{label})
		m.all.MustRegister(c)
		return c
	}
	histogram := func(name, help string) prometheus.Histogram {
		h := prometheus.NewHistogram(prometheus.HistogramOpts{Namespace: "scullion", Name: name, Help: help, Buckets: spans})
		m.all.MustRegister(h)
		return h
	}
	m.events = counters("gateway_events_total", "Events that came over the gateway.", "type")
	m.messages = counters("messages_total", "Messages settled, by what the answer was.", "kind")
	m.entries = counter("entries_total", "Entries written or changed.")
	m.asks = counter("asks_total", "Questions asked back.")
	m.settling = histogram("settle_seconds", "From taking a message up to its durable commit.")
	m.answering = histogram("answer_seconds", "From a message's event to its durable commit, with the wait for those before it.")
	m.overhead = histogram("overhead_seconds", "From a message's event to the call that answers it, less what the ledger took.")
	m.respond = histogram("interaction_seconds", "From an interaction's event to the end of the first response.")
	m.calls = prometheus.NewHistogramVec(prometheus.HistogramOpts{Namespace: "scullion", Name: "rest_seconds", Help: "Calls to the platform, by method and status; 0 where none came.", Buckets: spans}, []string{"method", "status"})
	m.all.MustRegister(m.calls)
	m.rooms = gauge("rooms", "Channels that are joined.")
	m.waiting = gauge("waiting_messages", "Messages that wait to be settled.")
	m.unsent = gauge("send_queue", "Answers that wait to be sent.")
	m.connected = gauge("gateway_connected", "1 while the gateway is connected.")
	m.reconnects = counter("gateway_lost_total", "Connections that were lost.")
	m.logins = counter("gateway_logins_total", "New sessions begun; the platform allows 1,000 a day.")
	m.retries = counter("send_retries_total", "Sends that had to be tried again.")
	m.refused = counter("send_refused_total", "Answers that the platform would not take.")
	m.faults = counter("faults_total", "Messages that the ledger failed for.")
	return m
}

// Handler shows the metrics.
func (m *Metrics) Handler() http.Handler { return promhttp.HandlerFor(m.all, promhttp.HandlerOpts{}) }

func (m *Metrics) event(kind string) { m.events.WithLabelValues(kind).Inc() }

func (m *Metrics) settled(r bot.Reply, came, began time.Time) {
	m.messages.WithLabelValues(string(r.Kind)).Inc()
	m.entries.Add(float64(len(r.Entries)))
	if r.Ask != nil {
		m.asks.Inc()
	}
	m.settling.Observe(time.Since(began).Seconds())
	if !came.IsZero() {
		m.answering.Observe(time.Since(came).Seconds())
	}
}

func (m *Metrics) call(method string, status int, d time.Duration) {
	m.calls.WithLabelValues(method, strconv.Itoa(status)).Observe(d.Seconds())
}

func (m *Metrics) interaction(d time.Duration, err error) {
	if err == nil {
		m.respond.Observe(d.Seconds())
	}
}

func (m *Metrics) setState(s string) {
	if s == "connected" {
		m.connected.Set(1)
		return
	}
	m.connected.Set(0)
}
