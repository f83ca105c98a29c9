// The dish that is being corrected: its head, its parts with their lines and shares, its method.
import { choose, focusRow, hear, point, rowOf } from './choosing.js';
import { attempt, desk, on, openField, shownDish } from './desk.js';
import { byId, clock, el } from './dom.js';
import { dishForm, lineForm, partForm, shareForm, stepForm } from './fields.js';

let editing = null; // {key, form}: the row whose fields are open
let stale = false; // the draft changed while fields were open

export const isEditing = () => Boolean(editing);

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
      el('h3', {}, el('button', { type: 'button', class: 'value', tabindex: -1 }, name))),
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

/** What is to be told of a value in words, beside any colour. */
function marks(item, more = []) {
  const words = [...more];
  if (item.unsure) words.push('heard less surely');
  if (item.by_reviewer.length) words.push('yours');
  return words.length ? el('span', { class: 'marks' }, ...words.map((word) => el('span', { class: 'mark' }, word))) : null;
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
  return el('li', { class: `row line${line.unsure ? ' unsure' : ''}`, dataset: { key: line.key, kind: 'line' } },
    el('button', { type: 'button', class: 'value', tabindex: -1 },
      el('span', { class: `amount${line.amount ? '' : ' none'}`, dataset: { field: 'amount' } }, amount), ' ',
      el('span', { class: 'food', dataset: { field: 'name' } }, line.name),
      line.preparation ? el('span', { dataset: { field: 'preparation' } }, `, ${line.preparation}`) : '',
      line.alternatives ? el('span', { class: 'aside', dataset: { field: 'alternatives' } }, ` or ${line.alternatives}`) : '',
      line.optional ? el('span', { class: 'aside', dataset: { field: 'optional' } }, ' (optional)') : '',
      line.note ? el('span', { class: 'aside', dataset: { field: 'note' } }, ` (${line.note})`) : ''),
    marks(line, more), heard(line.said));
}

function shareRow(share) {
  return el('li', { class: `row share${share.unsure ? ' unsure' : ''}`, dataset: { key: share.key, kind: 'share' } },
    el('button', { type: 'button', class: 'value', tabindex: -1 },
      el('span', { dataset: { field: 'fraction' } }, share.words), ' the ', el('span', { dataset: { field: 'of' } }, share.of),
      share.into ? el('span', { class: 'aside', dataset: { field: 'into' } }, `: ${share.into}`) : '', share.leftover ? ', left over' : ''),
    marks(share), heard(share.said));
}

function stepRow(dish, step, place) {
  const part = step.component && (place === 0 || dish.steps[place - 1].component !== step.component) ? step.component : '';
  return el('li', { class: `row step${step.unsure ? ' unsure' : ''}`, dataset: { key: step.key, kind: 'step' } },
    el('button', { type: 'button', class: 'value', tabindex: -1 },
      part ? el('span', { class: 'of-part', dataset: { field: 'component' } }, `${part[0].toUpperCase()}${part.slice(1)}. `) : '',
      el('span', { dataset: { field: 'text' } }, step.text),
      step.notes ? el('span', { class: 'aside', dataset: { field: 'notes' } }, ` Note: ${step.notes.split('\n').join(' Note: ')}`) : ''),
    marks(step), heard(step.said));
}

// --- the fields of a row -------------------------------------------------------------------------------------------

const FORMS = { line: lineForm, share: shareForm, step: stepForm, dish: dishForm, part: partForm };

export function openFields(key, field) {
  const row = rowOf(key);
  if (!row || !FORMS[row.dataset.kind]) return;
  if (editing) closeFields();
  const form = FORMS[row.dataset.kind](shownDish(), row.dataset.key, { close: closeFields });
  if (!form) return;
  editing = { key, form };
  row.classList.add('editing');
  row.append(form);
  const input = form.querySelector(`[name="${field}"]`) || form.querySelector('input, textarea');
  input.focus();
  if (input.tagName === 'INPUT') input.select();
  form.scrollIntoView({ block: 'nearest' });
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

// --- what can be done to a row without opening it -----------------------------------------------------------------------

const rows = () => [...byId('dish').querySelectorAll('.row[data-key]')];

export function moveFocus(step) {
  const all = rows();
  const now = all.indexOf(document.activeElement?.closest?.('.row[data-key]'));
  const next = all[now < 0 ? 0 : Math.min(Math.max(now + step, 0), all.length - 1)];
  if (!next) return;
  focusRow(next);
}

export const focusedRow = () => document.activeElement?.closest?.('#dish .row[data-key]');

/** Move a line or step one place up (-1) or down (1); a line goes on into the next part. */
export async function moveRow(step) {
  const row = focusedRow();
  const dish = shownDish();
  if (!row) return;
  const key = row.dataset.key;
  if (row.dataset.kind === 'step') {
    const at = dish.steps.findIndex((one) => one.key === key) + step;
    if (at >= 0 && at < dish.steps.length) await attempt({ do: 'move step', step: key, at });
  } else if (row.dataset.kind === 'line') {
    const part = dish.parts.findIndex((one) => one.lines.some((line) => line.key === key));
    const at = dish.parts[part].lines.findIndex((line) => line.key === key) + step;
    const inside = at >= 0 && at < dish.parts[part].lines.length;
    const target = inside ? dish.parts[part] : dish.parts[part + step];
    if (target) await attempt({ do: 'move line', line: key, part: target.key, at: inside ? at : step > 0 ? 0 : target.lines.length });
  }
  if (rowOf(key)) focusRow(rowOf(key));
}

export async function removeRow() {
  const row = focusedRow();
  if (!row) return;
  const all = rows();
  const next = (all[all.indexOf(row) + 1] || all[all.indexOf(row) - 1])?.dataset.key;
  const { key, kind } = row.dataset;
  const edits = {
    line: { do: 'remove line', line: key },
    step: { do: 'remove step', step: key },
    share: { do: 'set share', share: key, remove: true },
    part: { do: 'remove part', part: key },
  };
  if (edits[kind] && (await attempt(edits[kind])) && rowOf(next)) focusRow(rowOf(next));
}

export async function joinRow() {
  const row = focusedRow();
  if (!row) return;
  const { key, kind } = row.dataset;
  if (kind === 'step') await attempt({ do: 'join step', step: key });
  if (kind === 'dish') await attempt({ do: 'join dish', dish: key });
  if (rowOf(key)) focusRow(rowOf(key));
}

export async function toggleOptional() {
  const row = focusedRow();
  if (row?.dataset.kind !== 'line') return;
  const line = shownDish().parts.flatMap((part) => part.lines).find((one) => one.key === row.dataset.key);
  await attempt({ do: 'set line', line: line.key, optional: !line.optional });
}

/** A new line below the chosen one (a step below a step), its fields open. */
export async function addRow() {
  const row = focusedRow();
  if (row?.dataset.kind === 'step') await addStep(shownDish(), row.dataset.key);
  else await addLine(row?.dataset.key);
}

async function addLine(after) {
  const dish = shownDish();
  const part = dish.parts.find((one) => one.key === after || one.lines.some((line) => line.key === after)) || dish.parts[0];
  if (!part) return;
  await addThen({ do: 'add line', part: part.key, after, text: 'new ingredient' }, 'name');
}

const addStep = (dish, after) => addThen({ do: 'add step', dish: dish.key, after, text: 'New step' }, 'text');

async function addPart(dish) {
  await addThen({ do: 'add part', dish: dish.key, name: `part ${dish.parts.length + 1}` }, 'name');
}

async function addThen(edit, field) {
  const before = new Set(rows().map((row) => row.dataset.key));
  if (!(await attempt(edit))) return;
  const fresh = rows().find((row) => !before.has(row.dataset.key));
  if (fresh) openFields(fresh.dataset.key, field);
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
  on('dish', () => { if (editing) closeFields(); drawDish(); });
  on('edit', (key) => openFields(key));
}

let pressed = '';
