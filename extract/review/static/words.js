// The transcript: what was said, when, for which dish; words chosen in it become a line, a step, an answer.
import { fromCue, lightValues, choose, hear, rowOf, focusRow } from './choosing.js';
import { desk, get, on, say, attempt, shownDish } from './desk.js';
import { fillKinds, letter, put, reasonWords } from './kinds.js';
import { byId, clock, el, tell, warn } from './dom.js';
import { play, watchPlayer } from './player.js';

const box = () => byId('words');
let here = 0; // the place, among the cues, of the one that the keyboard is on
let picked = null; // chosen words: {cue, start, end, text}, and {from, to}: the moments of the words themselves

export async function loadWords(asked = get('/words')) {
  const given = await asked;
  desk.cues = given.cues.map(([index, start, end, text, speaker]) => ({ index, start, end, text, speaker }));
  const note = byId('words-note');
  note.hidden = !given.note;
  note.replaceChildren(given.note);
  if (given.changed) note.append(' ', el('button', { type: 'button', id: 'again' }, 'Draft the show again; what you changed stays'));
  byId('take-talk').hidden = !given.found;
  box().replaceChildren(...desk.cues.map(cueElement));
  say('words');
}

function cueElement(cue, place) {
  return el('div', { class: 'cue', id: `cue-${cue.index}`, role: 'listitem', tabindex: place ? -1 : 0, dataset: { place } },
    el('span', { class: 'when' }, desk.draft.timed ? clock(cue.start) : ''),
    cue.speaker ? el('span', { class: 'speaker' }, cue.speaker) : null,
    el('span', { class: 'text' }, cue.text));
}

/** Which dish a moment belongs to (its place), or why it was left out. */
function belonging(moment) {
  const left = desk.draft.talk.find((part) => part.start - 0.05 <= moment && moment < part.end);
  if (left) return { dish: -1, reason: left.reason };
  const dish = desk.draft.dishes.findIndex((one) =>
    one.stretches.some((part) => part.start - 0.05 <= moment && moment < part.end));
  return { dish, reason: '' };
}

/** Mark in the transcript where dishes begin and what was left out, and which cues values came from. */
function markWords() {
  let before = '';
  for (const cue of desk.cues) {
    const element = byId(`cue-${cue.index}`);
    if (!element) continue;
    const where = desk.draft.timed ? belonging(cue.start) : { dish: 0, reason: '' };
    const title = desk.draft.dishes[where.dish] ? `${letter(where.dish)}  ${desk.draft.dishes[where.dish].title}` : where.reason ? `Left out: ${reasonWords(where.reason)}` : 'In no dish';
    const begins = desk.draft.timed && title !== before ? title : '';
    if ((element.dataset.begins || '') !== begins) {
      if (begins) element.dataset.begins = begins;
      else delete element.dataset.begins;
    }
    before = title;
    element.classList.toggle('out', where.dish < 0);
    element.classList.toggle('holds', fromCue(cue.index).length > 0);
  }
}

// --- with the keyboard -------------------------------------------------------------------------------------------

function stand(place, keep = false) {
  if (!desk.cues[place]) return;
  const [old, now] = [desk.cues[here], desk.cues[place]].map((cue) => byId(`cue-${cue.index}`));
  old.tabIndex = -1;
  now.tabIndex = 0;
  here = place;
  if (!keep) now.focus();
}

/** From a value to its words: the keyboard goes to the first cue behind what is chosen. */
export function toWords() {
  const lit = box().querySelector('.cue.lit') || byId(`cue-${desk.cues[here]?.index}`);
  if (lit) stand(Number(lit.dataset.place));
}

/** From words to what came of them; the first value, then the next each time. */
export function toValue() {
  const cue = desk.cues[here];
  const items = cue ? fromCue(cue.index) : [];
  if (!items.length) return tell('Nothing in the draft came from these words.');
  const next = items[(items.findIndex((item) => item.key === desk.chosen) + 1) % items.length];
  choose(next.key);
  const row = rowOf(next.key);
  if (row) focusRow(row);
}

const spans = (text) => [...text.matchAll(/\S+/g)].map((found) => [found.index, found.index + found[0].length]);
let held = null; // words chosen with the arrow keys: {place, from, to} as numbers of words

function pickWord(step, longer) {
  const cue = desk.cues[here];
  const words = spans(cue.text);
  if (!held || held.place !== here) held = { place: here, from: step > 0 ? 0 : words.length - 1, to: step > 0 ? 0 : words.length - 1 };
  else if (longer) held.to = Math.min(Math.max(held.to + step, 0), words.length - 1);
  else held.from = held.to = Math.min(Math.max(held.to + step, 0), words.length - 1);
  const [low, high] = [Math.min(held.from, held.to), Math.max(held.from, held.to)];
  const range = new Range();
  const node = byId(`cue-${cue.index}`).querySelector('.text').firstChild;
  range.setStart(node, words[low][0]);
  range.setEnd(node, words[high][1]);
  const selection = getSelection();
  selection.removeAllRanges();
  selection.addRange(range);
  tell(range.toString());
}

function pickCues(step) {
  const selection = getSelection();
  const target = Math.min(Math.max(here + step, 0), desk.cues.length - 1);
  const node = (place) => byId(`cue-${desk.cues[place].index}`).querySelector('.text').firstChild;
  if (selection.isCollapsed) selection.setBaseAndExtent(node(here), 0, node(here), node(here).length);
  selection.extend(node(target), step > 0 ? node(target).length : 0);
  stand(target);
}

function onKey(event) {
  const cue = event.target.closest('.cue');
  if (!cue || event.ctrlKey || event.metaKey || event.altKey) return;
  const ways = {
    ArrowDown: () => (event.shiftKey ? pickCues(1) : stand(here + 1)),
    ArrowUp: () => (event.shiftKey ? pickCues(-1) : stand(here - 1)),
    ArrowRight: () => pickWord(1, event.shiftKey),
    ArrowLeft: () => pickWord(-1, event.shiftKey),
    Home: () => stand(0),
    End: () => stand(desk.cues.length - 1),
    PageDown: () => stand(Math.min(here + 12, desk.cues.length - 1)),
    PageUp: () => stand(Math.max(here - 12, 0)),
    Enter: () => chooseCue(here),
    Escape: () => { getSelection().removeAllRanges(); held = null; },
  };
  if (ways[event.key]) {
    event.preventDefault();
    ways[event.key]();
  }
}

function chooseCue(place) {
  const cue = desk.cues[place];
  const items = fromCue(cue.index);
  if (items.length) choose(items[0].key);
  play(cue.start);
}

// --- chosen words --------------------------------------------------------------------------------------------------

function readSelection() {
  const selection = getSelection();
  picked = null;
  if (!selection.isCollapsed && selection.rangeCount && box().contains(selection.anchorNode) && box().contains(selection.focusNode)) {
    const range = selection.getRangeAt(0);
    const inside = [...box().querySelectorAll('.cue')].slice(...placesOf(range));
    const pieces = inside.map((cue) => pieceOf(cue, range)).filter((piece) => piece.text.trim());
    if (pieces.length) {
      const [first, last] = [pieces[0].cue, pieces[pieces.length - 1].cue];
      const [from, to] = [pieces[0].from, pieces[pieces.length - 1].to];
      picked = { cue: first.index, start: first.start, end: last.end, from, to, text: pieces.map((piece) => piece.text.trim()).join(' ') };
    }
  }
  byId('of-words').hidden = !picked;
  byId('chosen-words').textContent = picked ? `“${picked.text.length > 60 ? `${picked.text.slice(0, 59)}…` : picked.text}”` : '';
}

function placesOf(range) {
  const place = (node) => Number((node.nodeType === 1 ? node : node.parentElement).closest('.cue')?.dataset.place ?? 0);
  return [place(range.startContainer), place(range.endContainer) + 1];
}

function pieceOf(element, range) {
  const node = element.querySelector('.text').firstChild;
  const low = range.startContainer === node ? range.startOffset : 0;
  const high = range.endContainer === node ? range.endOffset : node.length;
  const own = range.intersectsNode(node);
  const cue = desk.cues[Number(element.dataset.place)];
  // within a caption nobody knows when a word was said; its letters share out the time
  const moment = (letters) => Math.round((cue.start + (cue.end - cue.start) * letters / Math.max(node.length, 1)) * 100) / 100;
  return { cue, text: own ? node.data.slice(low, high) : '', from: moment(low), to: moment(high) };
}

/** Make something of the chosen words; without any, of the cue that the keyboard is on. */
export async function ofWords(what) {
  readSelection(); // the browser tells of a change only a moment later
  const cue = desk.cues[here];
  const words = picked || (cue && { cue: cue.index, start: cue.start, end: cue.end, from: cue.start, to: cue.end, text: cue.text });
  if (!words) return;
  const dish = shownDish();
  if (!dish && what !== 'cut' && what !== 'put') return warn('There is no dish to put this into. Let one begin here first.');
  const said = { cue: words.cue, start: words.start, end: words.end, text: words.text };
  const ways = {
    line: () => attempt({ do: 'add line', part: partFor(dish), said }),
    step: () => attempt({ do: 'add step', dish: dish.key, said, after: stepBefore(dish, words.start) }),
    answer: () => answerWith(said),
    put: () => put(byId('kind').value, { start: words.from, end: words.to }),
    cut: () => begins(words.from),
    begin: () => attempt({ do: 'set dish', dish: dish.key, start: `${words.from}` }),
    end: () => attempt({ do: 'set dish', dish: dish.key, end: `${words.to}` }),
  };
  const before = new Set(desk.draft.dishes.flatMap((one) => [...one.parts.flatMap((part) => part.lines), ...one.steps]).map((one) => one.key));
  const done = await ways[what]();
  if (!done) return;
  getSelection().removeAllRanges();
  held = null;
  const fresh = [...(shownDish()?.parts.flatMap((part) => part.lines) || []), ...(shownDish()?.steps || [])].find((one) => !before.has(one.key));
  if (fresh && (what === 'line' || what === 'step')) say('edit', { key: fresh.key });
}

/** The next dish begins at a moment: the dish there is cut in two, or what was left out becomes one. */
function begins(moment) {
  const where = belonging(moment);
  if (where.dish >= 0) return attempt({ do: 'cut dish', dish: desk.draft.dishes[where.dish].key, at: moment });
  const left = desk.draft.talk.find((part) => part.start - 0.05 <= moment && moment < part.end);
  return attempt({ do: 'add dish', start: moment, end: left ? left.end : desk.draft.end });
}

function partFor(dish) {
  const chosen = dish.parts.find((part) => part.key === desk.chosen || part.lines.some((line) => line.key === desk.chosen));
  return (chosen || dish.parts[0])?.key || '';
}

const stepBefore = (dish, moment) =>
  [...dish.steps].reverse().find((step) => step.said.length && step.said[0].start <= moment)?.key;

function answerWith(said) {
  if (!desk.asked) {
    tell('No question is in front.');
    return null;
  }
  return attempt({ do: 'answer', question: desk.asked, text: '', said });
}

// --- with the pointer ------------------------------------------------------------------------------------------------

export function startWords() {
  box().addEventListener('keydown', onKey);
  box().addEventListener('focusin', (event) => {
    const cue = event.target.closest('.cue');
    if (!cue) return;
    here = Number(cue.dataset.place);
    lightValues(desk.cues[here].index);
  });
  box().addEventListener('focusout', () => lightValues(null));
  box().addEventListener('mouseover', (event) => {
    const cue = event.target.closest('.cue');
    lightValues(cue ? desk.cues[Number(cue.dataset.place)].index : null);
  });
  box().addEventListener('mouseleave', () => lightValues(null));
  box().addEventListener('click', (event) => {
    const cue = event.target.closest('.cue');
    if (!cue || !getSelection().isCollapsed) return;
    stand(Number(cue.dataset.place));
    chooseCue(here);
  });
  document.addEventListener('selectionchange', readSelection);
  byId('of-words').addEventListener('click', (event) => {
    const what = event.target.closest('button')?.dataset.do;
    if (what) ofWords(what);
  });
  watchPlayer((moment, playing) => {
    if (!playing) return;
    const cue = desk.cues.findLast((one) => one.start <= moment + 0.05);
    for (const old of box().querySelectorAll('.now')) old.classList.remove('now');
    if (cue) byId(`cue-${cue.index}`).classList.add('now');
  });
  on('index', markWords);
  on('draft', () => fillKinds(byId('kind')));
  on('dish', markWords);
}

export const hearCue = () => desk.cues[here] && hear([desk.cues[here]]);
