(() => {
  'use strict';
  const data = id => JSON.parse(document.getElementById(id).textContent);
  let view = data('unit');
  // What the page says is in the table of phrases, in the language of the page.
  const words = data('words');
  const say = (key, ...blanks) => (words[key] || key).replace(/\{(\d)\}/g, (_, i) => blanks[i - 1]);
  const count = (key, n) => say(key + (n === 1 ? ' one' : ' many'), n);
  const $ = (tag, props = {}, ...kids) => {
    const e = document.createElement(tag);
    for (const [k, v] of Object.entries(props)) k in e ? e[k] = v : e.setAttribute(k, v);
    e.append(...kids.filter(k => k !== null));
    return e;
  };

  // What was typed stays on the phone until the desk has it: one entry for each value, with the
  // file's own text as it was when the typing began. Two tabs of one phone share it.
  const box = 'tarepage walk ' + view.name;
  const kept = () => { try { return JSON.parse(localStorage.getItem(box)) || {}; } catch { return {}; } };
  const keep = change => {
    const all = kept();
    change(all);
    try { localStorage.setItem(box, JSON.stringify(all)); return true; } catch { return false; }
  };

  const lines = {}; // by key: what is drawn, and the line as the desk has it
  let busy = false, again = false, failed = '', turn = 0, tried = 0;

  // A unit file says tag for the label; nobody says so at the trailer.
  const called = place => place && (words['phone place ' + place] || place);

  // A choice that the table names is shown in its words, and any other as it is written.
  const named = choice => words['phone choice ' + choice] || choice;

  // One line.
  const draw = line => {
    const e = { line };
    lines[line.key] = e;
    e.now = $('p', { className: 'now' });
    e.said = $('span', { className: 'said' });
    e.told = $('p', { className: 'told', role: 'status' });
    e.boxes = boxes(line, () => typed(line.key, false), () => typed(line.key, true));
    e.place = line.places && line.places.length ? $('select', { name: 'place' },
      ...(line.places.length > 1 && line.places[0] === 'scale ticket' ? [$('option', { value: '' }, say('phone choose'))] : []),
      ...line.places.map(p => $('option', { value: p }, called(p)))) : null;
    e.day = e.place && line.places.includes('scale ticket') ? $('input', { type: 'date', name: 'day', max: view.today }) : null;
    e.dayLabel = e.day && $('label', {}, say('phone ticket day'), $('span', {}, e.day));
    for (const b of [e.place, e.day]) if (b) b.addEventListener('change', () => { shape(e); typed(line.key, true, e.saved && !/^unknown/.test(e.line.now) ? e.line.now : ''); });
    e.same = $('button', { type: 'button', className: 'plain', onclick: () => same(line.key) }, say('phone same'));
    e.why = $('input', { value: say('phone plate') });
    e.unread = $('div', { className: 'row', hidden: true }, $('label', {}, say('phone why unread'), $('span', {}, e.why)),
      $('button', { type: 'button', onclick: () => { unreadable(line.key); e.unread.hidden = true; } }, say('phone write that')));
    e.cannot = line.mayBeUnknown ? $('button', { type: 'button', className: 'plain', onclick: () => { e.unread.hidden = !e.unread.hidden; } }, say('phone cannot')) : null;
    e.both = $('div', { className: 'row', hidden: true });
    e.photo = $('details', { hidden: true }, $('summary', {}, say('phone photo')));
    e.photo.addEventListener('toggle', () => { if (e.photo.open) photo(e); });
    const h = $('h3', {}, line.ask);
    e.root = $('article', { className: 'line' }, h, e.now, $('div', { className: 'row' },
      $('label', {}, line.now ? say('phone what you read') : say('phone value'), $('span', {}, ...e.boxes.list)),
      e.place && $('label', {}, 'Where', $('span', {}, e.place)), e.dayLabel),
      $('div', { className: 'row' }, e.same, e.cannot), e.unread, e.told, e.both, e.photo);
    e.root.dataset.key = line.key;
    refill(e);
    shape(e);
    told(e);
    return e.root;
  };

  // The boxes of a value, and its text as a unit file writes it.
  const boxes = (line, oninput, onchange) => {
    const all = (list, text, fill) => {
      const own = list.filter(b => b.addEventListener);
      for (const b of own) {
        b.addEventListener('input', oninput);
        // Feet are not sent while the inches are still typed.
        b.addEventListener('blur', ev => { if (!own.includes(ev.relatedTarget)) onchange(); });
        if (own.length === 1) b.addEventListener('change', onchange);
      }
      return { list, text, fill };
    };
    if (line.box === 'choice') {
      const s = $('select', { name: 'value' }, $('option', { value: '' }, say('phone choose')), ...line.choices.map(c => $('option', { value: c }, named(c))));
      return all([s], () => s.value, p => { s.value = p.value; });
    }
    if (line.box === 'feet') {
      const ft = $('input', { inputMode: 'decimal', className: 'short', name: 'feet', ariaLabel: say('phone box feet', line.ask) }), inches = $('input', { inputMode: 'decimal', className: 'short', name: 'inches', ariaLabel: say('phone box inches', line.ask) });
      return all([ft, 'ft', inches, 'in'], () => [ft.value.trim() && ft.value.trim() + ' ft', inches.value.trim() && inches.value.trim() + ' in'].filter(Boolean).join(' '),
        p => { const m = /^(?:([0-9.,]+) ft)? ?(?:([0-9.,]+) in)?$/.exec(p.value) || []; ft.value = m[1] || ''; inches.value = m[2] || ''; });
    }
    const i = $('input', { name: 'value', autocomplete: 'off', autocapitalize: line.box === 'text' ? 'characters' : 'off', spellcheck: false });
    if (line.box === 'day') i.type = 'date';
    i.inputMode = line.box === 'number' ? (line.unit === '' || line.unit === undefined ? 'numeric' : 'decimal') : 'text';
    i.placeholder = line.example.replace(/ \(.*/, '');
    return all(line.unit === '$' ? ['$', i] : [i, ...(line.unit ? [line.unit] : [])], () => i.value.trim(), p => { i.value = p.value; });
  };

  // Fill the boxes with what this phone keeps.
  const refill = e => {
    const p = kept()[e.line.key];
    if (!p) return;
    e.boxes.fill({ value: p.value || '' });
    if (e.place && p.place !== undefined) e.place.value = p.place;
    if (e.day && p.day) e.day.value = p.day;
    if (p.unreadable) e.why.value = p.unreadable;
  };
  const shape = e => { if (e.dayLabel) e.dayLabel.hidden = e.place.value !== 'scale ticket'; };

  // Say how a line is.
  const told = e => {
    const p = kept()[e.line.key], l = e.line;
    e.now.replaceChildren(l.now || (l.state === 'missing' ? say('phone not known') : say('phone not given')), l.from ? ' (' + l.from + ')' : '');
    if (l.said) e.now.append($('span', { className: 'said' }, l.said));
    e.same.hidden = !l.now || /^unknown/.test(l.now) || (l.state === 'known' && !p);
    const open = ['only said', 'from the model', 'estimated', 'missing'].includes(l.state);
    let cls = open ? '' : e.saved ? 'saved' : 'known', text = e.saved ? say('phone saved') : '';
    e.photo.hidden = !l.readAt || !!p;
    e.photo.firstElementChild.textContent = l.proven ? say('phone photographed') : say('phone photo');
    if (e.ask) { e.ask.hidden = l.state !== 'missing' || !!p; e.ask.parentElement.hidden = [...e.ask.parentElement.querySelectorAll('.ask')].every(a => a.hidden); }
    e.both.hidden = !(p && p.theirs !== undefined);
    if (p && p.theirs !== undefined) {
      cls = 'wrong';
      text = say('phone conflict');
      e.both.replaceChildren(
        $('button', { type: 'button', className: 'plain', onclick: () => { keep(a => { delete a[l.key]; }); e.boxes.fill({ value: '' }); told(e); } }, say('phone keep', p.theirs || say('phone no value'))),
        $('button', { type: 'button', onclick: () => { keep(a => { if (a[l.key]) { a[l.key].own = a[l.key].theirs; delete a[l.key].theirs; a[l.key].ready = true; } }); told(e); send(); } }, say('phone write', p.written || p.value)));
    } else if (p && p.reason) {
      cls = 'wrong'; text = p.reason;
    } else if (p && p.ready) {
      cls = 'waits'; text = failed ? say('phone kept') : say('phone sending');
    } else if (p && p.value) {
      cls = 'waits'; text = where(e) || say('phone typed');
    }
    e.root.className = 'line ' + cls;
    if (e.told.textContent !== text) e.told.textContent = text;
  };

  // Something was typed. It is sent when the box is left and it says where it was read.
  const put = (key, what, done) => {
    const e = lines[key];
    const held = keep(all => {
      const before = all[key];
      all[key] = { ...what, own: before && before.theirs === undefined ? before.own : e.line.own, turn: ++turn + Date.now() };
      all[key].ready = done;
    });
    if (!held) failed = say('phone keeps nothing');
    e.saved = false;
    told(e);
    done ? send() : soon();
  };
  const where = e => e.place && !e.place.value ? say('phone choose where') : e.place && e.place.value === 'scale ticket' && !e.day.value ? say('phone give day') : '';
  const typed = (key, left, last = '') => {
    const e = lines[key], value = e.boxes.text() || last, place = e.place ? e.place.value : '', day = e.day ? e.day.value : '';
    const p = kept()[key];
    if (!value) {
      if (p) { keep(all => { delete all[key]; }); told(e); soon(); }
      return;
    }
    // Leaving a box without a change sends nothing again.
    if (left && (p ? p.ready || p.reason || p.theirs !== undefined : e.saved) && (!p ? !last : p.value === value && p.place === place && p.day === day)) return;
    put(key, { value, place, day }, left && !where(e));
  };
  const same = key => {
    const e = lines[key], now = e.line.now.replace(/^about /, '');
    e.boxes.fill({ value: now });
    if (where(e)) { typed(key, false); (e.place.value ? e.day : e.place).focus(); return; }
    put(key, { value: now, place: e.place ? e.place.value : '', day: e.day ? e.day.value : '' }, true);
  };
  // What is read at one place is confirmed with one tap, if all of it is as it was said. A scale
  // ticket is not among it: it needs its day.
  const together = [];
  const unread = l => ['only said', 'from the model'].includes(l.state) && l.now && !/^unknown/.test(l.now);
  const oneTap = open => {
    const place = l => (l.places || [''])[0], count = {};
    for (const l of open) if (unread(l) && place(l) !== 'scale ticket') count[place(l)] = (count[place(l)] || 0) + 1;
    const at = Object.keys(count).sort((a, b) => count[b] - count[a])[0];
    const all = () => open.map(l => lines[l.key]).filter(e => unread(e.line) && !kept()[e.line.key] && (!e.place || e.line.places.includes(at)));
    // Each value has its name, and a tick that can be taken away where the trailer has another.
    const other = new Set(), mine = () => all().filter(e => !other.has(e.line.key));
    const list = $('ul', { className: 'ticks' });
    const button = $('button', { type: 'button', className: 'plain', onclick: () => {
      for (const e of mine()) {
        if (e.place) e.place.value = at;
        same(e.line.key);
      }
    } });
    const name = () => {
      const n = mine().length;
      button.disabled = n === 0;
      const key = n === all().length ? 'phone same all' : n === 1 ? 'phone same ticked' : 'phone same several';
      button.textContent = say(key + (at ? ' at' : ''), n, called(at));
    };
    const box = $('div', {}, $('p', {}, say('phone take away')), list, button);
    let drawn = '';
    together.push(() => {
      const now = at === undefined ? [] : all(), text = now.map(e => e.line.key + '=' + e.line.now).join();
      box.hidden = now.length < 2;
      if (text !== drawn) {
        drawn = text;
        list.replaceChildren(...now.map(e => {
          const tick = $('input', { type: 'checkbox', checked: !other.has(e.line.key) });
          tick.addEventListener('change', () => { tick.checked ? other.delete(e.line.key) : other.add(e.line.key); name(); });
          return $('li', {}, $('label', { className: 'tick' }, tick, ' ' + e.line.name + ' ' + e.line.now));
        }));
      }
      name();
    });
    return box;
  };
  // What is missing and anybody sees is asked first, with a button for each answer. A line leaves
  // the questions when it has one, and stays where it is on the walk.
  const answers = l => l.state !== 'missing' || lines[l.key].place ? [] : l.key === 'tires.per-axle' ? [['2', '2'], ['4', say('phone four')]]
    : l.box === 'choice' && l.choices.length < 5 ? l.choices.map(c => [c, named(c)]) : [];
  const questions = open => {
    const block = $('div', { className: 'line', hidden: true });
    for (const l of open) {
      if (!answers(l).length) continue;
      const e = lines[l.key];
      e.ask = $('div', { className: 'ask', role: 'group', ariaLabel: l.ask }, $('p', { className: 'told' }, l.ask), $('div', { className: 'row' },
        ...answers(l).map(([value, text]) => $('button', { type: 'button', className: 'plain', onclick: () => { e.boxes.fill({ value }); put(l.key, { value, place: '', day: '' }, true); } }, text))));
      block.append(e.ask);
      told(e);
    }
    return block;
  };
  const unreadable = key => put(key, { value: '', unreadable: lines[key].why.value }, true);

  // A photo proves the value, and others that were read in the same place. It stays on this page
  // until the desk has it.
  const photo = e => {
    const place = e.line.readAt, told = $('p', { className: 'told', role: 'status' });
    const others = Object.values(lines).filter(o => o !== e && o.line.readAt === place && !o.line.proven).map(o => ({ key: o.line.key, tick: $('input', { type: 'checkbox' }), ask: o.line.ask }));
    const privately = $('input', { type: 'checkbox' });
    const pick = $('input', { type: 'file', accept: 'image/jpeg,image/png,image/webp', ariaLabel: say('phone photo of', e.line.ask) });
    pick.setAttribute('capture', 'environment');
    const sendPhoto = async file => {
      const to = new URL(location.pathname + '/photo', location.origin);
      to.searchParams.set('place', place);
      for (const key of [e.line.key, ...others.filter(o => o.tick.checked).map(o => o.key)]) to.searchParams.append('key', key);
      if (privately.checked) to.searchParams.set('private', '1');
      told.textContent = say('phone sending photo');
      try {
        const r = await fetch(to, { method: 'POST', headers: { 'Content-Type': file.type || 'image/jpeg' }, body: file });
        if (!r.ok) { told.textContent = await r.text(); return; }
        e.photo.open = false;
        see(await r.json());
      } catch {
        told.textContent = say('phone photo waits');
        setTimeout(() => sendPhoto(file), 5000);
      }
    };
    pick.addEventListener('change', () => { if (pick.files[0]) sendPhoto(pick.files[0]); });
    const tick = (box, text) => $('label', { className: 'tick' }, box, ' ' + text);
    e.photo.replaceChildren(e.photo.firstElementChild, ...(others.length ? [$('p', {}, say('phone what else'))] : []), ...others.map(o => tick(o.tick, o.ask)),
      tick(privately, say('phone private')), pick, told);
  };

  // The desk.
  const ask = async body => {
    const stop = new AbortController();
    const late = setTimeout(() => stop.abort(), 15000);
    try {
      const r = await fetch(location.pathname, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body), signal: stop.signal, cache: 'no-store' });
      if (r.status === 403) throw new Error(say('phone new key'));
      if (!r.ok) throw new Error(await r.text());
      return await r.json();
    } catch (err) {
      throw err instanceof TypeError || err.name === 'AbortError' ? new Error(say('phone no answer')) : err;
    } finally { clearTimeout(late); }
  };
  const answer = ([key, p]) => ({ key, own: p.own, value: p.value || '', place: p.place || '', day: p.day || '', unreadable: p.unreadable || '' });

  // Send everything that is ready, until nothing is.
  const send = async () => {
    if (busy) { again = true; return; }
    const out = Object.entries(kept()).filter(([key, p]) => key !== ' note' && p.ready && lines[key]), note = kept()[' note'];
    if (!out.length && !(note && note.ready)) { failed = ''; state(); return; }
    busy = true; again = false;
    state();
    let wait = 0;
    try {
      const got = await ask({ save: true, answers: out.map(answer), note: note && note.ready ? note.value : '' });
      failed = '';
      for (const o of got.outcomes) {
        const was = (out.find(([key]) => key === o.key) || [])[1], e = lines[o.key];
        keep(all => {
          const p = all[o.key];
          if (!p || !was || p.turn !== was.turn) { if (p && o.outcome === 'taken') p.own = o.own; return; }
          if (o.outcome === 'taken') { delete all[o.key]; e.saved = true; e.line = { ...e.line, state: 'known', now: o.written, from: '' }; return; }
          p.ready = false;
          if (o.outcome === 'conflict') { p.theirs = o.own; p.written = o.written; } else p.reason = o.reason;
        });
        if (e.saved) {
          // Feet stay where they are: inches typed after them would be all that is left.
          if (e.line.box !== 'feet') e.boxes.fill({ value: '' });
          e.unread.hidden = true;
        }
      }
      if (note && note.ready) {
        keep(all => { if (all[' note'] && all[' note'].value === note.value) { if (got.noteTaken) delete all[' note']; else all[' note'] = { value: note.value, reason: got.noteRefused }; } });
        noted(got.noteTaken);
      }
      see(got);
    } catch (err) {
      failed = err.message;
      wait = 4000;
    }
    busy = false;
    state();
    for (const e of Object.values(lines)) told(e);
    if (wait) setTimeout(send, wait); else if (again) send();
  };

  // What the figures and findings would be with everything that was typed, saved or not.
  let timer = 0;
  const soon = () => { clearTimeout(timer); timer = setTimeout(check, 350); };
  const check = async () => {
    const mine = ++tried;
    try {
      const all = Object.entries(kept()).filter(([key]) => key !== ' note' && lines[key]);
      const got = await ask({ save: false, answers: all.map(([key, p]) => answer([key, { ...p, place: p.place || (lines[key].line.places || [''])[0], day: p.day || view.today }])) });
      // Only the judgment is of what was typed; the lines stay as the desk has them.
      if (mine === tried && !busy) judge(got);
    } catch { /* the lines say that the desk does not answer */ }
  };
  const refresh = async () => {
    try { const got = await ask({ save: false, answers: [] }); if (!busy) { see(got); if (Object.keys(kept()).length) soon(); } } catch { /* later */ }
  };

  // Take what the desk says of the unit.
  const see = got => {
    if (view.broken !== got.broken) { location.reload(); return; }
    view = got;
    for (const s of got.stations) for (const l of [...s.open, ...s.rest]) {
      if (lines[l.key]) { lines[l.key].line = l; continue; }
      const at = document.querySelector(`[data-station="${s.name}"]`);
      if (at) at.append(draw(l));
    }
    for (const l of got.sale) if (lines[l.key]) lines[l.key].line = l;
    for (const e of Object.values(lines)) told(e);
    for (const f of together) f();
    judge(got);
  };
  const judged = document.getElementById('judged');
  const judge = got => {
    const stops = got.findings.filter(f => f.severity === 'stop').length, rest = got.findings.length - stops;
    judged.firstElementChild.textContent = [count('phone stop', stops), count('phone caution', rest), got.figures.length ? got.figures[0].label + ' ' + got.figures[0].text : ''].filter(Boolean).join(', ');
    judged.lastElementChild.replaceChildren(
      $('ul', {}, ...got.findings.map(f => $('li', { className: f.severity }, $('b', { className: 'severity' }, say('phone severity ' + f.severity)), ' ' + f.message, $('br'), say('phone fix', f.remedy)))),
      $('dl', {}, ...got.figures.flatMap(f => [$('dt', {}, f.label), $('dd', {}, f.text)])));
  };
  const sending = document.getElementById('sending');
  const state = () => {
    const n = Object.values(kept()).filter(p => p.ready).length;
    const text = failed ? failed : n ? say('phone on the way', n) : '';
    if (sending.textContent !== text) sending.textContent = text;
  };

  // A note.
  const area = $('textarea', { maxLength: 1000, ariaLabel: say('phone note label') }), noteTold = $('p', { className: 'told', role: 'status' });
  const noted = taken => {
    const p = kept()[' note'];
    noteTold.textContent = p && p.reason ? p.reason : p && p.ready ? say('phone kept') : taken ? say('phone saved') : '';
    if (taken && !p) area.value = '';
  };
  area.addEventListener('input', () => { keep(all => { if (area.value.trim()) all[' note'] = { value: area.value }; else delete all[' note']; }); noted(); });
  const addNote = () => { if (area.value.trim()) { keep(all => { all[' note'] = { value: area.value, ready: true }; }); noted(); send(); } };

  // The page.
  const walk = document.getElementById('walk');
  if (view.broken) walk.append($('p', { className: 'told' }, say('phone broken')));
  for (const s of view.stations) {
    walk.append($('h2', {}, say('phone station ' + s.name)));
    const open = $('div', {}, ...s.open.map(draw));
    open.dataset.station = s.name;
    walk.append(open);
    if (s.open.length > 1) open.prepend(oneTap(s.open));
    if (s.rest.length) walk.append($('details', {}, $('summary', {}, say(s.open.length ? 'phone more' : 'phone rest', s.rest.length)), ...s.rest.map(draw)));
  }
  walk.prepend(questions(view.stations.flatMap(s => s.open)));
  if (!view.broken) {
    walk.append($('h2', {}, say('phone sale')), ...view.sale.map(draw), $('p', {}, say('phone from today', view.today)));
    if (kept()[' note']) area.value = kept()[' note'].value;
    walk.append($('h2', {}, say('phone note')), $('p', {}, say('phone note read')), area, $('div', { className: 'row' }, $('button', { type: 'button', onclick: addNote }, say('phone add note'))), noteTold);
    noted();
  }
  // The desk tells that a file changed. A page that nobody looks at does not listen.
  let ear = null;
  const listen = () => {
    if (document.hidden) { if (ear) ear.close(); ear = null; return; }
    send();
    if (ear) return;
    let first = true;
    ear = new EventSource('/showroom/events');
    ear.onmessage = () => { if (!first || failed) refresh(); first = false; };
  };
  document.addEventListener('visibilitychange', listen);
  addEventListener('online', send);
  addEventListener('pagehide', () => { if (ear) ear.close(); ear = null; });
  addEventListener('pageshow', listen);
  addEventListener('storage', e => { if (e.key === box) for (const l of Object.values(lines)) told(l); });
  for (const f of together) f();
  judge(view);
  state();
  listen();
  if (Object.keys(kept()).length) soon();
})();
