// Choosing and pointing: a value lights up its words, words light up the values that came from them.
import { desk, findItem, itemsOf, on, say } from './desk.js';
import { byId } from './dom.js';
import { play } from './player.js';

let pointed = null;

/** Choose a value: it stays lit, its words are brought into view and, where wished, played. */
export function choose(key, { sound = false, focus = false } = {}) {
  const found = findItem(key);
  if (!found) return;
  if (found.dish.key !== desk.dish) {
    desk.dish = found.dish.key;
    say('dish');
  }
  desk.chosen = key;
  light(found.said, true);
  for (const row of document.querySelectorAll('[data-key].chosen')) row.classList.remove('chosen');
  const row = rowOf(key);
  if (row) {
    row.classList.add('chosen');
    if (focus) focusRow(row);
  }
  say('chosen', found);
  if (sound && byId('hear-chosen')?.checked) hear(found.said);
}

export const rowOf = (key) => document.querySelector(`#recipe [data-key="${CSS.escape(key)}"]`);

/** Put the keyboard on a row; it becomes the one of its list that Tab reaches. */
export function focusRow(row) {
  const target = row.querySelector('.value') || row;
  for (const other of document.querySelectorAll('#dish .value[tabindex="0"]')) other.tabIndex = -1;
  if (target.classList.contains('value')) target.tabIndex = 0;
  target.focus();
}

/** Play the words behind a value, from their first moment to their last. */
export function hear(said) {
  if (!said.length) return;
  const first = said[0];
  play(first.start, Math.max(first.end, first.start + 2));
}

export function hearChosen() {
  const found = findItem(desk.chosen);
  if (found) hear(found.said);
}

// --- the words ------------------------------------------------------------------------------------------------

const cueElement = (index) => byId(`cue-${index}`);
const textOf = (element) => element.querySelector('.text').firstChild;

/** The stretches of text in the transcript on which a value rests: ranges, and the cues they are in. */
export function wordsBehind(said) {
  const ranges = [];
  const cues = new Set();
  for (const one of said) {
    const first = placeOf.get(one.cue);
    if (first === undefined) continue;
    const joined = desk.cues.slice(first, first + 6).filter((cue) => cue.start <= one.end + 0.01);
    const whole = joined.map((cue) => cue.text).join(' ');
    const at = whole.toLowerCase().indexOf(one.text.toLowerCase());
    let offset = 0;
    for (const cue of joined) {
      const low = at < 0 ? 0 : Math.max(at - offset, 0);
      const high = at < 0 ? (cue.index === one.cue ? cue.text.length : 0) : Math.min(at + one.text.length - offset, cue.text.length);
      if (high > low) {
        cues.add(cue.index);
        ranges.push([cue.index, low, high]);
      }
      offset += cue.text.length + 1;
    }
  }
  return { ranges, cues };
}

function light(said, scroll) {
  const { ranges, cues } = wordsBehind(said);
  for (const old of document.querySelectorAll('.cue.lit')) old.classList.remove('lit');
  for (const index of cues) cueElement(index)?.classList.add('lit');
  if (window.CSS?.highlights) {
    const real = ranges.filter(([index]) => cueElement(index)).map(([index, low, high]) => {
      const range = new Range();
      range.setStart(textOf(cueElement(index)), low);
      range.setEnd(textOf(cueElement(index)), high);
      return range;
    });
    CSS.highlights.set('behind', new Highlight(...real));
  }
  const first = cueElement([...cues][0]);
  if (scroll && first) bringIntoView(first, byId('words'));
}

function bringIntoView(element, box) {
  const [inner, outer] = [element.getBoundingClientRect(), box.getBoundingClientRect()];
  if (!outer.height || getComputedStyle(box).overflowY === 'visible') return;
  if (inner.top < outer.top + 20 || inner.bottom > outer.bottom - 20) {
    box.scrollTop += inner.top - outer.top - outer.height / 3;
  }
}

/** While a value is pointed at, its words are lit; after that, those of the chosen one again. */
export function point(key) {
  if (key === pointed) return;
  pointed = key;
  const found = findItem(key || desk.chosen);
  light(found ? found.said : [], false);
}

// --- the other way round ----------------------------------------------------------------------------------------

let placeOf = new Map(); // the index of a cue in its file, and its place among those shown
let byCue = new Map();
let ofDish = new WeakMap(); // a dish that has not changed is not looked through again

function valuesOf(dish) {
  if (!ofDish.has(dish)) {
    ofDish.set(dish, itemsOf(dish).flatMap((item) => [...wordsBehind(item.said).cues].map((index) => [index, item])));
  }
  return ofDish.get(dish);
}

function lookThrough() {
  byCue = new Map();
  for (const [index, item] of desk.draft.dishes.flatMap(valuesOf)) {
    if (!byCue.has(index)) byCue.set(index, []);
    byCue.get(index).push(item);
  }
  say('index');
}

on('words', () => {
  placeOf = new Map(desk.cues.map((cue, place) => [cue.index, place]));
  ofDish = new WeakMap();
  if (desk.draft) lookThrough();
});
on('draft', lookThrough);

/** The values that came from the words of a cue. */
export const fromCue = (index) => byCue.get(index) || [];

/** Light up what came from a cue, in the recipe. */
export function lightValues(index) {
  for (const old of document.querySelectorAll('#recipe .lit')) old.classList.remove('lit');
  for (const item of index === null ? [] : fromCue(index)) rowOf(item.key)?.classList.add('lit');
}
