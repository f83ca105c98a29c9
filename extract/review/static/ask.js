// What needs a person, first: the open questions in order of weight, one in front, the answer typed in place.
import { choose, hear, point } from './choosing.js';
import { attempt, desk, edit, on, openQuestions } from './desk.js';
import { byId, clock, el, tell } from './dom.js';

const AS_IT_IS = 'left as it is';
const box = () => byId('ask');
let typed = ''; // what stands in the answer's field while the draft changes around it

function draw() {
  const open = openQuestions();
  const all = desk.draft.dishes.flatMap((dish) => dish.questions.map((question) => ({ question, dish })));
  const answered = all.filter(({ question }) => question.answer);
  if (!open.some(({ question }) => question.key === desk.asked)) {
    desk.asked = open[0]?.question.key || '';
    typed = '';
  }
  const inField = box().contains(document.activeElement);
  const place = open.findIndex(({ question }) => question.key === desk.asked);
  const must = open.filter(({ question }) => question.must).length;
  const count = open.length
    ? `${open.length} still to settle${must ? `, ${must} of them before it can be published` : ''}`
    : 'Nothing is left to settle';
  box().replaceChildren(
    el('h3', { id: 'ask-head' }, count),
    ...(open.length ? [card(open[place], place, open.length)] : []),
    ...list('All that is open', open.map(({ question, dish }) => row(question, dish))),
    ...list(`Answered (${answered.length})`, answered.map(({ question, dish }) => row(question, dish))));
  if (inField) box().querySelector('#answer')?.focus();
}

function card({ question, dish }, place, count) {
  const problem = el('p', { class: 'problem', role: 'alert' });
  const input = el('input', { id: 'answer', autocomplete: 'off', 'aria-labelledby': 'question', 'aria-describedby': 'answer-help' });
  input.value = typed;
  input.addEventListener('input', () => { typed = input.value; });
  const form = el('form', { class: 'answer', dataset: { key: question.key } },
    el('p', { class: 'count' }, `Question ${place + 1} of ${count} · ${dish.title}${question.must ? ' · ' : ''}`,
      question.must ? el('strong', {}, 'must be answered') : null),
    el('p', { id: 'question' }, question.text),
    el('p', { class: 'row' }, input, el('button', { class: 'main' }, 'Answer'),
      question.said.length && desk.draft.timed
        ? el('button', { type: 'button', onclick: () => hear(question.said) }, `Hear ${clock(question.said[0].start)}`) : null,
      el('button', { type: 'button', onclick: () => answer(question, AS_IT_IS) }, 'Leave it as it is'),
      el('button', { type: 'button', onclick: () => go(1) }, 'Later')),
    el('p', { id: 'answer-help', class: 'note' }, 'Enter saves and brings the next one; with nothing typed it plays the words.'),
    problem);
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    if (input.value.trim()) await answer(question, input.value, problem);
    else hear(question.said);
  });
  input.addEventListener('keydown', (event) => {
    if (event.altKey && (event.key === 'ArrowDown' || event.key === 'ArrowUp')) {
      event.preventDefault();
      go(event.key === 'ArrowDown' ? 1 : -1);
    } else if (event.key === 'Enter' && event.altKey) {
      event.preventDefault();
      hear(question.said);
    } else if (event.key === 'Enter' && event.ctrlKey) {
      event.preventDefault();
      answer(question, AS_IT_IS, problem);
    } else if (event.key === 'Escape') {
      input.blur();
      byId('dish').focus();
    }
  });
  return form;
}

async function answer(question, text, problem) {
  const open = openQuestions().map((one) => one.question.key);
  const after = open[open.indexOf(question.key) + 1];
  try {
    await edit({ do: 'answer', question: question.key, text });
  } catch (refused) {
    if (problem) problem.textContent = refused.message;
    return;
  }
  typed = '';
  if (openQuestions().some((one) => one.question.key === after)) desk.asked = after;
  if (openQuestions().length) front(desk.asked);
  else {
    draw();
    byId('dish').focus();
    tell('Nothing is left to settle.');
  }
}

/** Bring a question to the front, its words lit, the keyboard in its answer. */
export function front(key) {
  if (key !== desk.asked) typed = '';
  desk.asked = key;
  choose(key, { sound: true });
  draw();
  byId('answer')?.focus();
}

/** The next open question (1) or the one before (-1). */
export function go(step) {
  const open = openQuestions();
  if (!open.length) return tell('Nothing is left to settle.');
  const inCard = box().contains(document.activeElement) || desk.chosen === desk.asked;
  const now = open.findIndex(({ question }) => question.key === desk.asked);
  front(open[(now + (inCard ? step : 0) + open.length) % open.length].question.key);
}

function list(name, rows) {
  return rows.length ? [el('details', {}, el('summary', {}, name), el('ol', {}, ...rows))] : [];
}

function row(question, dish) {
  const said = question.said.length && desk.draft.timed ? ` ${clock(question.said[0].start)}` : '';
  const reopen = () => attempt({ do: 'answer', question: question.key, text: '' });
  return el('li', { class: 'row', dataset: { key: question.key, kind: 'question' } },
    question.answer
      ? el('span', {}, `${question.text} `, el('strong', {}, question.answer), question.only_words ? ' (kept as words)' : '', ` – ${dish.title} `)
      : el('button', { type: 'button', class: 'asked', onclick: () => front(question.key) }, `${question.text} – ${dish.title}${said}`,
        question.must ? el('strong', {}, ' must be answered') : ''),
    question.answer ? el('button', { type: 'button', onclick: reopen }, 'Ask again') : null);
}

/** What changed under the reviewer when the show was drafted again. */
function drawNotes() {
  const notes = byId('notes');
  const seen = () => localStorage.getItem('cardwright notes') === desk.draft.notes_at;
  const done = () => {
    localStorage.setItem('cardwright notes', desk.draft.notes_at);
    notes.hidden = true;
    byId('dish').focus();
  };
  notes.hidden = !desk.draft.notes.length || seen();
  notes.replaceChildren(
    el('h3', { id: 'notes-head' }, `Drafted again: ${desk.draft.notes.length} to look at`),
    el('ul', {}, ...desk.draft.notes.map((note) => el('li', {},
      el('button', { type: 'button', class: 'asked', onclick: () => choose(note.key, { focus: true }) }, `${note.about}: ${note.text}`)))),
    el('p', {}, el('button', { type: 'button', onclick: done }, 'I have looked at them')));
}

export function startAsking() {
  box().addEventListener('mouseover', (event) => point(event.target.closest('[data-key]')?.dataset.key || null));
  box().addEventListener('mouseleave', () => point(null));
  on('draft', draw);
  on('draft', drawNotes);
}
