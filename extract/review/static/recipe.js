// The dish that is being corrected: its head, its parts with their lines and shares, its method.
import { choose, focusRow, hear, point, rowOf } from './choosing.js';
import { desk, on, openField, shownDish, unsureOf } from './desk.js';
import { byId, clock, el } from './dom.js';
import { dishForm, lineForm, partForm, shareForm, stepForm } from './fields.js';
import { addLine, addPart, addStep, moveRow } from './rows.js';

let editing = null; // {key, form}: the row whose fields are open
let stale = false; // the draft changed while fields were open

function drawDish() {
  if (editing) {
    stale = true;
    return;
  }
  stale = false;
  const dish = shownDish();
  const kept = document.activeElement?.closest?.('#dish [data-key]')?.dataset.key;
  if (!dish) {
    byId('dish').replaceChildren(el('p', { class: 'note' }, 'There is no dish in this draft.'));
    return;
  }
  byId('dish').replaceChildren(head(dish), ...dish.parts.map((part) => partOf(dish, part)), adding(dish), method(dish));
  const first = rowOf(desk.chosen)?.querySelector('.value') || byId('dish').querySelector('.value');
  if (first) first.tabIndex = 0;
  rowOf(desk.chosen)?.classList.add('chosen');
  if (kept && rowOf(kept)) focusRow(rowOf(kept));
}

function head(dish) {
  const bounds = desk.draft.timed ? `${dish.from} to ${dish.to}` : '';
  const facts = [
    bounds,
    dish.makes ? `makes ${dish.makes}` : 'how many it makes was not said',
    dish.batch ? `${dish.batch} times the normal batch` : '',
  ].filter(Boolean);
  return el('div', { class: 'row dish-head', dataset: { key: dish.key, kind: 'dish' } },
    el('button', { type: 'button', class: 'value', tabindex: -1 },
      el('span', { class: 'title' }, dish.title), el('span', { class: 'facts' }, facts.join(' · '))));
}

function partOf(dish, part) {
  const name = part.name ? part.name[0].toUpperCase() + part.name.slice(1) : (dish.parts.length > 1 ? 'For the dish itself' : 'Ingredients');
  return el('section', { class: 'part', 'aria-label': name },
    el('div', { class: 'row part-head', dataset: { key: part.key, kind: 'part' } },
      el('h3', {}, el('button', { type: 'button', class: 'value', tabindex: -1 }, name,
        part.batch ? el('span', { class: 'facts' }, ` · ${part.batch} times the normal batch`) : null))),
    el('ul', { class: 'lines' }, ...part.lines.map(lineRow), ...part.shares.map(shareRow)));
}

function adding(dish) {
  const part = dish.parts.find((one) => one.lines.some((line) => line.key === desk.chosen)) || dish.parts[0];
  return el('p', { class: 'row-tools' },
    part ? el('button', { type: 'button', onclick: () => addLine() }, 'Add an ingredient ', el('kbd', {}, '+')) : null,
    el('button', { type: 'button', onclick: () => addPart(dish) }, 'Add a part'));
}

function method(dish) {
  return el('section', { class: 'part', 'aria-label': 'Method' },
    el('h3', {}, 'Method'),
    el('ol', { class: 'steps' }, ...dish.steps.map((step, place) => stepRow(dish, step, place))),
    el('p', { class: 'row-tools' }, el('button', { type: 'button', onclick: () => addStep(dish) }, 'Add a step')));
}

const LESS_SURE = { name: 'the food', amount: 'the amount', fraction: 'the share', text: 'the step' };
const field = (item, name, more = '') => ({ class: `${more}${unsureOf(item).includes(name) ? ' doubt' : ''}`.trim() || null, dataset: { field: name } });
const rowClass = (item, kind) => `row ${kind}${unsureOf(item).length ? ' unsure' : ''}`;

/** What is to be told of a value in words, beside any colour. */
function marks(item, more = []) {
  const words = [...more];
  const doubts = unsureOf(item).map((field) => LESS_SURE[field]);
  if (doubts.length) words.unshift(`(?) less sure of ${doubts.join(' and ')}`);
  if (item.by_reviewer.length) words.push('yours');
  return words.length ? el('span', { class: 'marks', id: `marks-${item.key}` }, ...words.map((word) => el('span', { class: 'mark' }, word))) : null;
}

function heard(said) {
  if (!said.length || !desk.draft.timed) return null;
  const moment = clock(said[0].start);
  return el('button', { type: 'button', class: 'hear', tabindex: -1, 'aria-label': `Hear it at ${moment}`, onclick: () => hear(said) }, moment);
}

function lineRow(line) {
  const amount = line.amount || (line.note ? '' : 'no amount');
  const more = [
    line.heard && line.heard !== line.name ? `heard as “${line.heard}”` : '',
    line.known ? '' : 'a food unknown here',
  ].filter(Boolean);
  return el('li', { class: rowClass(line, 'line'), dataset: { key: line.key, kind: 'line' } },
    el('button', { type: 'button', class: 'value', tabindex: -1, 'aria-describedby': `marks-${line.key}` },
      el('span', field(line, 'amount', line.amount ? 'amount' : 'amount none'), amount), ' ',
      el('span', field(line, 'name', 'food'), line.name),
      line.preparation ? el('span', { dataset: { field: 'preparation' } }, `, ${line.preparation}`) : '',
      line.alternatives ? el('span', { class: 'aside', dataset: { field: 'alternatives' } }, ` or ${line.alternatives}`) : '',
      line.optional ? el('span', { class: 'aside', dataset: { field: 'optional' } }, ' (optional)') : '',
      line.note ? el('span', { class: 'aside', dataset: { field: 'note' } }, ` (${line.note})`) : ''),
    marks(line, more), heard(line.said));
}

function shareRow(share) {
  return el('li', { class: rowClass(share, 'share'), dataset: { key: share.key, kind: 'share' } },
    el('button', { type: 'button', class: 'value', tabindex: -1, 'aria-describedby': `marks-${share.key}` },
      el('span', field(share, 'fraction'), share.words), ' the ', el('span', { dataset: { field: 'of' } }, share.of),
      share.into ? el('span', { class: 'aside', dataset: { field: 'into' } }, `: ${share.into}`) : '', share.leftover ? ', left over' : ''),
    marks(share), heard(share.said));
}

function stepRow(dish, step, place) {
  const part = step.component && (place === 0 || dish.steps[place - 1].component !== step.component) ? step.component : '';
  return el('li', { class: rowClass(step, 'step'), dataset: { key: step.key, kind: 'step' } },
    el('button', { type: 'button', class: 'value', tabindex: -1, 'aria-describedby': `marks-${step.key}` },
      part ? el('span', { class: 'of-part', dataset: { field: 'component' } }, `${part[0].toUpperCase()}${part.slice(1)}. `) : '',
      el('span', field(step, 'text'), step.text),
      step.notes ? el('span', { class: 'aside', dataset: { field: 'notes' } }, ` Note: ${step.notes.split('\n').join(' Note: ')}`) : ''),
    marks(step), heard(step.said));
}

// --- the fields of a row -------------------------------------------------------------------------------------------

const FORMS = { line: lineForm, share: shareForm, step: stepForm, dish: dishForm, part: partForm };

export async function openFields(key, field) {
  if (!(await leaveFields())) return;
  const row = rowOf(key);
  if (!row || !FORMS[row.dataset.kind]) return;
  const form = FORMS[row.dataset.kind](shownDish(), row.dataset.key, { close: closeFields, move: (step) => moveOpen(step) });
  editing = { key, form };
  choose(key);
  row.classList.add('editing');
  row.append(form);
  const input = form.querySelector(`[name="${field}"]`) || form.querySelector('input, textarea');
  input.focus();
  if (input.tagName === 'INPUT') input.select();
  form.scrollIntoView({ block: 'nearest' });
}

/** Leave open fields for something else: what was typed is saved. False where it was refused, and stays open. */
async function leaveFields() {
  if (!editing) return true;
  if (editing.form.isTouched()) await editing.form.saveNow();
  else closeFields();
  return !editing;
}

/** Move the row whose fields are open one place up (-1) or down (1); they open again there. */
async function moveOpen(step) {
  const { key } = editing;
  if (!(await leaveFields())) return;
  await moveRow(step);
  openFields(key);
}

/** Close the fields without saving; the keyboard goes back to the row, or to `next`. */
export function closeFields(next) {
  if (!editing) return;
  const { key, form } = editing;
  editing = null;
  form.remove();
  rowOf(key)?.classList.remove('editing');
  if (stale) drawDish();
  const row = rowOf(typeof next === 'string' ? next : key);
  if (row) focusRow(row);
}

// --- with the pointer --------------------------------------------------------------------------------------------------

export function startRecipe() {
  const box = byId('dish');
  box.addEventListener('click', (event) => {
    const value = event.target.closest('.value');
    if (!value || openField()?.contains(value)) return;
    const { key, kind } = value.closest('.row').dataset;
    const byKeyboard = event.detail === 0;
    if (byKeyboard || pressed === key || kind === 'dish' || kind === 'part') {
      choose(key);
      openFields(key, event.target.closest('[data-field]')?.dataset.field);
    } else {
      choose(key, { sound: true, focus: true });
    }
  });
  box.addEventListener('focusin', (event) => {
    const row = event.target.closest('.row[data-key]');
    if (row && !row.classList.contains('editing') && event.target.classList.contains('value')) choose(row.dataset.key);
  });
  box.addEventListener('mousedown', () => { pressed = desk.chosen; });
  box.addEventListener('mouseover', (event) => point(event.target.closest('.row[data-key]')?.dataset.key || null));
  box.addEventListener('mouseleave', () => point(null));
  on('draft', drawDish);
  on('unsure', drawDish);
  on('dish', showOther);
  addEventListener('beforeunload', (event) => { if (editing?.form.isTouched()) event.preventDefault(); });
  on('edit', ({ key, field }) => openFields(key, field));
}

/** Another dish is shown; fields that are open in this one are saved first, or stay where that is refused. */
async function showOther() {
  if (editing && rowOf(editing.key) && !(await leaveFields())) {
    desk.dish = desk.draft.dishes.find((dish) => findKey(dish, editing.key))?.key || desk.dish;
    return;
  }
  editing = null;
  drawDish();
}

const findKey = (dish, key) => [dish, ...dish.parts, ...dish.steps, ...dish.parts.flatMap((part) => [...part.lines, ...part.shares])].some((one) => one.key === key);

let pressed = '';
