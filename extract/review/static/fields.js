// The fields of one row, open in its place. Enter saves, Escape leaves; a refusal is told below, nothing is lost.
import { hear } from './choosing.js';
import { attempt, desk, dishAt, edit, unsureOf } from './desk.js';
import { clock, el } from './dom.js';

let count = 0;

function field(label, name, value, more = {}) {
  const id = `field-${(count += 1)}`;
  const { tag = 'input', wide, ...attributes } = more;
  const input = el(tag, { id, name, autocomplete: 'off', spellcheck: tag === 'textarea' ? 'true' : 'false', ...attributes });
  input.value = value;
  return el('div', { class: wide ? 'field wide' : 'field' }, el('label', { for: id }, label), input);
}

function tick(label, name, checked) {
  const input = el('input', { type: 'checkbox', name });
  input.checked = checked;
  return el('label', { class: 'tick' }, input, ` ${label}`);
}

function select(label, name, options, chosen) {
  const id = `field-${(count += 1)}`;
  const box = el('select', { id, name }, ...options.map(([value, text]) => el('option', { value }, text)));
  box.value = chosen;
  return el('div', { class: 'field' }, el('label', { for: id }, label), box);
}

const button = (text, work, more = {}) => el('button', { type: 'button', onclick: work, ...more }, text);

/**
 * A form over a row. `edits(form)` are the edits that saving makes, in order; `tools` further buttons.
 * A conflict keeps what was typed and asks whose value is to stand.
 */
function form({ label, said, close, edits, tools = [], fields }) {
  const base = desk.draft.number;
  let touched = false;
  const problem = el('p', { class: 'problem', role: 'alert' });
  const saving = el('button', { class: 'main' }, 'Save');
  const whole = el('form', { class: 'field-form', 'aria-label': label, novalidate: true },
    el('div', { class: 'fields' }, ...fields), quoted(said), problem,
    el('p', { class: 'row-tools' }, saving, button('Leave as it was', () => close()), ...tools,
      said.length && desk.draft.timed ? button(`Hear ${clock(said[0].start)}`, () => hear(said), { class: 'hear-words' }) : null));

  async function save(on) {
    problem.replaceChildren();
    try {
      for (const what of edits(whole)) await edit(what, on);
      close();
    } catch (refused) {
      problem.append(refused.message);
      if (refused.conflict) {
        problem.append(' ', button('Put mine in', () => save(undefined)), ' ', button('Leave theirs', () => close()));
      }
      const marked = whole.querySelector('input, textarea');
      marked.setAttribute('aria-describedby', (problem.id = `problem-${(count += 1)}`));
    }
  }

  whole.addEventListener('submit', (event) => {
    event.preventDefault();
    save(base);
  });
  whole.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') {
      event.stopPropagation();
      close();
    } else if (event.key === 'Enter' && event.altKey) {
      event.preventDefault();
      hear(said);
    } else if (event.key === 'Enter' && event.target.tagName === 'TEXTAREA' && !event.shiftKey && !event.ctrlKey) {
      event.preventDefault();
      save(base);
    }
  });
  whole.addEventListener('input', () => { touched = true; });
  whole.saveNow = () => save(base);
  whole.isTouched = () => touched;
  return whole;
}

/** The words behind a value, to be read where the transcript is not in sight. */
export function quoted(said) {
  const words = said.slice(0, 3).map((one) => `${desk.draft.timed ? `${clock(one.start)} ` : ''}“${one.text}”`);
  return words.length ? el('p', { class: 'said-words' }, `Said: ${words.join(', ')}`) : null;
}

const text = (whole, name) => whole.elements[name].value;

/** Do something to the row itself, and close its fields where that is done. */
async function then(close, what, next) {
  if (await attempt(what)) close(next);
}

/** Where the reader was less sure of an item: to say that it is right as it stands. */
const confirming = (item, close) => (unsureOf(item).length
  ? [button('Heard rightly', () => then(close, { do: 'confirm', item: item.key, fields: unsureOf(item) }))] : []);

const moving = (move) => [button('Move up', () => move(-1)), button('Move down', () => move(1))];

export function lineForm(dish, key, { close, move }) {
  const home = dish.parts.find((part) => part.lines.some((line) => line.key === key));
  const line = home.lines.find((one) => one.key === key);
  const parts = dish.parts.map((part) => [part.key, part.name || 'the dish itself']);
  const elsewhere = desk.draft.dishes.filter((other) => other !== dish && other.parts.length)
    .map((other) => [other.parts[0].key, `to “${other.title}”`]);
  return form({
    label: `Ingredient: ${line.name}`, said: line.said, close,
    fields: [
      field('Amount', 'amount', line.amount, { placeholder: 'none' }),
      field('Food', 'name', line.name),
      field('How prepared', 'preparation', line.preparation),
      field('Or instead (apart by ;)', 'alternatives', line.alternatives),
      field('Note', 'note', line.note),
      select('Belongs to', 'part', [...parts, ...elsewhere], home.key),
      tick('Optional', 'optional', line.optional),
    ],
    edits(whole) {
      const part = text(whole, 'part');
      const set = { do: 'set line', line: key, optional: whole.elements.optional.checked };
      for (const name of ['amount', 'name', 'preparation', 'alternatives', 'note']) {
        if (text(whole, name) !== line[name]) set[name] = text(whole, name);
      }
      const moves = part === home.key ? [] : [{ do: 'move line', line: key, part, at: 10000 }];
      return [set, ...moves];
    },
    tools: [...confirming(line, close), ...moving(move), button('Remove the line', () => then(close, { do: 'remove line', line: key }))],
  });
}

export function shareForm(dish, key, { close }) {
  const share = dish.parts.flatMap((part) => part.shares).find((one) => one.key === key);
  return form({
    label: `Share of the ${share.of}`, said: share.said, close,
    fields: [field('Share', 'fraction', share.fraction), field('Of', 'of', share.of), field('Goes into', 'into', share.into, { wide: true })],
    edits: (whole) => [{ do: 'set share', share: key, fraction: text(whole, 'fraction'), of: text(whole, 'of'), into: text(whole, 'into') }],
    tools: [...confirming(share, close), button('Remove the share', () => then(close, { do: 'set share', share: key, remove: true }))],
  });
}

export function stepForm(dish, key, { close, move }) {
  const place = dish.steps.findIndex((step) => step.key === key);
  const step = dish.steps[place];
  const parts = [...new Set(['', ...dish.parts.map((part) => part.name), step.component])].map((name) => [name, name || 'the whole dish']);
  const split = async () => {
    const area = whole.elements.text;
    const what = { do: 'split step', step: key, at: area.selectionStart, text: area.value };
    if (await attempt(what, undefined)) close();
  };
  const whole = form({
    label: `Step ${place + 1}`, said: step.said, close,
    fields: [
      field('What is done', 'text', step.text, { tag: 'textarea', rows: 4, wide: true }),
      select('Part', 'component', parts, step.component),
      field('Notes (a line each)', 'notes', step.notes, { tag: 'textarea', rows: 1 }),
    ],
    edits(form_) {
      const set = { do: 'set step', step: key };
      for (const name of ['text', 'component', 'notes']) if (text(form_, name) !== step[name]) set[name] = text(form_, name);
      return [set];
    },
    tools: [
      ...confirming(step, close),
      button('Split at the cursor', split),
      place + 1 < dish.steps.length ? button('Join with the next', () => then(close, { do: 'join step', step: key })) : null,
      ...moving(move),
      button('Remove the step', () => then(close, { do: 'remove step', step: key })),
    ],
  });
  whole.addEventListener('keydown', (event) => {
    if (event.key === 'Enter' && event.ctrlKey && event.target.name === 'text') {
      event.preventDefault();
      split();
    }
  });
  return whole;
}

export function partForm(dish, key, { close }) {
  const part = dish.parts.find((one) => one.key === key);
  return form({
    label: `Part: ${part.name || 'the dish itself'}`, said: part.batch_said, close,
    fields: [
      field('Name of the part (nothing: the dish itself)', 'name', part.name, { wide: true }),
      field('Batch of this part on camera', 'batch', part.batch, { placeholder: '2 for a double one' }),
    ],
    edits: (whole) => [{ do: 'set part', part: key, name: text(whole, 'name'), batch: text(whole, 'batch') }],
    tools: part.lines.length || part.shares.length ? [] : [button('Remove the part', () => then(close, { do: 'remove part', part: key }))],
  });
}

export function dishForm(dish, key, { close }) {
  const last = dishAt(key) + 1 >= desk.draft.dishes.length;
  const cutting = field('Cut it in two at', 'at', '', { placeholder: '3:42' });
  const cut = async () => {
    const at = seconds(cutting.querySelector('input').value);
    await then(close, { do: 'cut dish', dish: key, at: at ?? -1 });
  };
  const timed = desk.draft.timed;
  return form({
    label: `Dish: ${dish.title}`, said: dish.makes_said, close,
    fields: [
      field('Title', 'title', dish.title, { wide: true }),
      field('Makes', 'makes', dish.makes, { placeholder: 'serves 4, 24 pies' }),
      field('Batch on camera', 'batch', dish.batch, { placeholder: '2 for a double one' }),
      ...(timed ? [field('From', 'start', dish.from), field('To', 'end', dish.to), cutting] : []),
    ],
    edits(whole) {
      const set = { do: 'set dish', dish: key };
      const before = { title: dish.title, makes: dish.makes, batch: dish.batch, start: dish.from, end: dish.to };
      for (const [name, value] of Object.entries(before)) {
        if (whole.elements[name] && text(whole, name) !== value) set[name] = text(whole, name);
      }
      return [set];
    },
    tools: [
      timed ? button('Cut there', cut) : null,
      last ? null : button('Join with the next dish', () => then(close, { do: 'join dish', dish: key })),
      button('This is no recipe', () => then(close, { do: 'drop dish', dish: key, reason: 'talk' })),
    ],
  });
}

function seconds(typed) {
  const found = typed.trim().match(/^(?:(?:(\d+):)?(\d+):)?(\d+(?:\.\d+)?)$/);
  return found ? Number(found[1] || 0) * 3600 + Number(found[2] || 0) * 60 + Number(found[3]) : null;
}
