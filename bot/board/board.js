// Keeps the page as the kitchen is: takes what the server sends, counts timers in between, and says when no news come any more.
'use strict';
const main = document.getElementById('now'), news = document.getElementById('news'), clock = document.getElementById('clock'), heardOf = document.getElementById('heard');
const stale = 20000, apart = 3000; // no news for so long; a second look after so long
let heard = Date.now(), skew = clock.dataset.at - Date.now(), last = main.dataset.sum, tried = 0, begun = false, source;

// lately is what somebody who cannot see the page is told of, where it changes.
function lately() {
  const said = main.querySelector('#said li');
  return said ? said.textContent : '';
}
function put(html, sum) {
  if (sum === last) return tick();
  last = sum;
  const before = lately(), at = document.activeElement && main.contains(document.activeElement) ? document.activeElement.closest('[id]') : null;
  main.innerHTML = html;
  if (at) { const again = document.getElementById(at.id); if (again) again.focus({preventScroll: true}); }
  if (lately() !== before) heardOf.textContent = lately();
  tick();
}
function fresh() {
  heard = Date.now();
  if (document.body.classList.contains('stale')) { document.body.classList.remove('stale'); news.textContent = 'Live.'; }
}
function listen() {
  if (source) source.close();
  begun = true;
  source = new EventSource('/events');
  source.addEventListener('now', e => { const d = JSON.parse(e.data); if (d.version !== main.dataset.version) return location.reload(); skew = d.at - Date.now(); put(d.html, d.sum); fresh(); });
  source.addEventListener('beat', fresh);
  source.addEventListener('error', () => { if (source.readyState === EventSource.CLOSED) setTimeout(listen, apart); });
}
function look() {
  fetch('/now', {cache: 'no-store'}).then(r => r.ok ? r.text() : Promise.reject()).then(h => { put(h, ''); fresh(); }).catch(() => {});
}
function words(ms) {
  const over = ms < 0 ? 'over ' : '', s = over ? Math.floor(-ms / 1000) : Math.ceil(ms / 1000);
  if (s < 1) return 'now';
  const m = Math.floor(s / 60);
  return over + (m >= 60 ? Math.floor(m / 60) + ' h ' + (m % 60) + ' min' : m + ':' + String(s % 60).padStart(2, '0'));
}
function tick() {
  const now = Date.now() + skew, two = n => String(n).padStart(2, '0');
  const minutes = Math.floor((+clock.dataset.day + (now - clock.dataset.at) / 1000) / 60) % 1440;
  clock.textContent = two(Math.floor(minutes / 60)) + ':' + two(minutes % 60);
  for (const e of document.querySelectorAll('[data-due]')) {
    const left = e.dataset.due - now, strip = e.closest('li'), about = strip.querySelector('.about');
    e.textContent = words(left);
    if (left <= 0 && about && !strip.classList.contains('due')) { strip.classList.add('due'); heardOf.textContent = 'Time: ' + about.textContent; }
  }
  const quiet = Date.now() - heard;
  if (quiet > stale) {
    if (!document.body.classList.contains('stale')) news.textContent = 'No news for ' + stale / 1000 + ' s.'; // once, or it would be read out each second
    document.body.classList.add('stale');
    if (Date.now() - tried > stale) { tried = Date.now(); listen(); } // after a sleep a connection may seem open and be dead
  }
}
document.addEventListener('visibilitychange', () => { if (!document.hidden) { look(); if (source && source.readyState === EventSource.CLOSED) listen(); } });
setInterval(tick, 1000);
// What there is, is painted first; a page in the background paints nothing, and begins all the same.
function begin() { if (!begun) { begun = true; listen(); } }
requestAnimationFrame(() => setTimeout(begin));
setTimeout(begin, 1000);

const form = document.getElementById('sayform');
if (form) form.addEventListener('submit', e => {
  e.preventDefault();
  const text = form.elements.text, reply = document.getElementById('reply');
  fetch('/say', {method: 'POST', headers: {'Accept': 'application/json'}, body: new URLSearchParams(new FormData(form))})
    .then(r => r.ok ? r.json() : r.text().then(t => Promise.reject(new Error(t))))
    .then(d => { reply.textContent = d.text || 'Heard.'; form.elements.nonce.value = d.nonce; text.value = ''; text.focus(); })
    .catch(err => { reply.textContent = 'Not said: ' + (err.message || 'the kitchen cannot be reached') + '. Try again.'; });
});
