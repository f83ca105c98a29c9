// The show at a glance: what was cooked when and what was left out, to scale and as a list.
import { desk, on, say } from './desk.js';
import { byId, clock, el } from './dom.js';
import { fillKinds, letter, put, reasonWords } from './kinds.js';
import { play } from './player.js';

/** The show as stretches one after another: of a dish, left out, or neither. */
function stretches() {
  const { dishes, talk, end } = desk.draft;
  const parts = [
    ...dishes.flatMap((dish, place) => dish.stretches.map((one) => ({ ...one, dish, place }))),
    ...talk.map((one) => ({ ...one, dish: null })),
  ];
  const bounds = [...new Set([0, end, ...parts.flatMap((one) => [one.start, one.end])])].sort((one, two) => one - two);
  const out = [];
  for (let at = 0; at + 1 < bounds.length; at += 1) {
    const [start, stop] = [bounds[at], bounds[at + 1]];
    const inside = parts.filter((one) => one.start <= start && one.end >= stop);
    const owner = inside.find((one) => !one.dish) || inside[0] || null;
    if (stop - start < 0.5 || (!owner && stop - start < 5)) continue;
    const last = out[out.length - 1];
    if (last && last.owner?.dish === owner?.dish && last.owner?.reason === owner?.reason) last.end = stop;
    else out.push({ start, end: stop, owner });
  }
  return out;
}

function drawRibbon() {
  byId('ribbon').hidden = !desk.draft.timed;
  byId('ribbon').replaceChildren(...stretches().map(({ start, end, owner }) => {
    const times = `${clock(start)} to ${clock(end)}`;
    const name = owner?.dish ? owner.dish.title : owner ? `left out, ${reasonWords(owner.reason)}` : 'in no dish';
    const first = owner?.dish?.stretches[0].start === start; // a dish that is taken up again is counted once
    const open = first ? owner.dish.questions.filter((question) => !question.answer).length : 0;
    const sign = owner?.dish ? letter(owner.place) : '';
    const item = el('li', {}, el('button', {
      type: 'button', title: `${name}, ${times}`,
      'aria-label': `${name}, ${times}${open ? `, ${open} open` : ''}`,
      'aria-current': owner?.dish?.key === desk.dish ? 'true' : null,
      class: owner?.dish ? 'of-dish' : 'of-none',
      onclick: () => { if (owner?.dish) showDish(owner.dish.key); else play(start); },
    }, el('span', { class: 'sign' }, sign), el('span', { class: 'label' }, owner?.dish ? name : owner ? reasonWords(owner.reason) : ''), open ? el('span', { class: 'open' }, `${open}`) : ''));
    item.style.flexGrow = String(Math.max(end - start, 1));
    return item;
  }));
}

/** The list is made where it is open: it may be long. */
function drawCut() {
  if (!byId('cut').open) return byId('cut-list').replaceChildren();
  const { dishes, talk } = desk.draft;
  const rows = [
    ...dishes.map((dish, place) => ({ start: dish.start, row: dishRow(dish, place) })),
    ...talk.map((part) => ({ start: part.start, row: talkRow(part) })),
  ].sort((one, two) => one.start - two.start);
  byId('cut-list').replaceChildren(el('ul', {}, ...rows.map((one) => one.row)),
    desk.draft.timed ? el('p', { class: 'note' }, 'To move a bound, choose words in the transcript, or open the head of a dish and give it another time.') : '');
}

function dishRow(dish, place) {
  const times = desk.draft.timed ? dish.stretches.map((one) => `${clock(one.start)}–${clock(one.end)}`).join(', ') : '';
  return el('li', {}, el('button', { type: 'button', class: 'asked', onclick: () => showDish(dish.key) }, `${letter(place)}  ${dish.title}  ${times}`));
}

function talkRow(part) {
  const times = desk.draft.timed ? `${clock(part.start)}–${clock(part.end)}` : '';
  const kind = el('select', { 'aria-label': `What ${times} is` });
  fillKinds(kind, part.reason);
  const change = () => put(kind.value, part);
  return el('li', { class: 'row' }, `Left out ${times}`, kind, el('button', { type: 'button', onclick: change, 'aria-label': `Change what ${times} is` }, 'Change'));
}

export function showDish(key) {
  desk.dish = key;
  say('dish');
}

/** The next dish (1) or the one before (-1). */
export function goDish(step) {
  const { dishes } = desk.draft;
  const now = dishes.findIndex((dish) => dish.key === desk.dish);
  const next = dishes[Math.min(Math.max(now + step, 0), dishes.length - 1)];
  if (next) showDish(next.key);
  byId('dish').focus();
}

export function startShow() {
  byId('cut').addEventListener('toggle', drawCut);
  for (const what of ['draft', 'dish']) {
    on(what, drawRibbon);
    on(what, drawCut);
  }
}
