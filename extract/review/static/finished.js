// The finished page as it will read, made by the program that publishes it, and the written version held against it.
import { choose, fromCue, rowOf, focusRow } from './choosing.js';
import { desk, get, on } from './desk.js';
import { byId, clock, el } from './dom.js';
import { play } from './player.js';

let waiting = 0;
let asked = 0;

function soon() {
  clearTimeout(waiting);
  waiting = setTimeout(draw, 60);
}

async function draw() {
  const mine = (asked += 1);
  if (!desk.dish) return; // also where it is out of sight: it is what goes on paper
  try {
    const page = await get(`/dish/${encodeURIComponent(desk.dish)}`);
    if (mine !== asked) return;
    const parsed = new DOMParser().parseFromString(page.html, 'text/html');
    byId('page').replaceChildren(...parsed.body.childNodes);
    if (document.body.dataset.written) drawWritten(await get('/written'));
  } catch (problem) {
    byId('page').replaceChildren(el('p', { class: 'problem' }, problem.message));
  }
}

function drawWritten(rows) {
  const heads = ['What', 'Said', 'Written', 'How much it matters', 'Where'];
  const row = (one) => el('tr', { class: one.weight === 'changes the dish' ? 'heavy' : null },
    el('th', { scope: 'row' }, `${one.about}${one.kind ? ` (${one.kind})` : ''}`), el('td', {}, one.said || '–'), el('td', {}, one.written || '–'), el('td', {}, one.weight),
    el('td', {}, one.start === null || one.start === undefined ? '' : el('button', { type: 'button', onclick: () => toMoment(one.start) }, clock(one.start)), one.line ? ` line ${one.line}` : ''));
  byId('written').replaceChildren(
    el('p', {}, rows.length ? `${rows.length} differences. Neither side is called right.` : 'The written version agrees with the draft.'),
    rows.length ? el('table', {}, el('thead', {}, el('tr', {}, ...heads.map((head) => el('th', { scope: 'col' }, head)))), el('tbody', {}, ...rows.map(row))) : '');
}

/** Play from a moment, and choose what was said then. */
function toMoment(moment) {
  play(moment);
  const cue = desk.cues.findLast((one) => one.start <= moment + 0.05);
  const item = cue && fromCue(cue.index)[0];
  if (item) {
    choose(item.key);
    if (rowOf(item.key)) focusRow(rowOf(item.key));
  }
}

export function startFinished() {
  byId('page').addEventListener('click', (event) => {
    const link = event.target.closest('a[href^="#t="]');
    if (!link) return;
    event.preventDefault();
    toMoment(Number(link.hash.slice(3)));
  });
  const see = (written) => {
    byId('page').hidden = written;
    byId('written').hidden = !written;
    byId('see-page').setAttribute('aria-pressed', String(!written));
    byId('see-written').setAttribute('aria-pressed', String(written));
  };
  byId('see-page')?.addEventListener('click', () => see(false));
  byId('see-written')?.addEventListener('click', () => see(true));
  for (const what of ['draft', 'dish']) on(what, soon);
}
