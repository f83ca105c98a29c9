// What a stretch of the show is: of a dish, a dish of its own, or left out for a reason.
import { attempt, desk } from './desk.js';
import { byId, el } from './dom.js';

const OF = 'of ';
const OWN = 'own';

export const letter = (place) => (place < 26 ? String.fromCharCode(65 + place) : `${place + 1}`);

const reasons = () => [...byId('reasons').content.querySelectorAll('option')];

export const reasonWords = (reason) => reasons().find((option) => option.value === reason)?.text || reason;

/** Give a select what a stretch can be, keeping what is chosen in it. */
export function fillKinds(select, chosen = select.value) {
  const dishes = desk.draft.dishes.map((dish, place) => el('option', { value: OF + dish.key }, `${letter(place)}  ${dish.title}`));
  select.replaceChildren(
    el('optgroup', { label: 'No recipe, but' }, ...reasons().map((option) => option.cloneNode(true))),
    el('optgroup', { label: 'Of a dish' }, ...dishes, el('option', { value: OWN }, 'a dish of its own')));
  const known = (value) => [...select.options].some((option) => option.value === value);
  if (chosen && !known(chosen) && !chosen.startsWith(OF)) select.prepend(el('option', { value: chosen }, chosen));
  select.value = known(chosen) ? chosen : select.options[0].value;
}

/** Make a stretch what was chosen, whatever it is now; what was done last, null where something was refused. */
export async function put(kind, { start, end }) {
  const touches = (one) => one.start < end && one.end > start;
  let edits = [{ do: 'take in', dish: kind.slice(OF.length) }];
  if (kind === OWN) edits = [{ do: 'add dish' }];
  else if (!kind.startsWith(OF)) {
    const dishes = desk.draft.dishes.filter((dish) => dish.stretches.some(touches));
    edits = dishes.map((dish) => ({ do: 'leave out', dish: dish.key, reason: kind }));
    if (desk.draft.talk.some(touches)) edits.push({ do: 'name talk', reason: kind });
  }
  let done = null;
  for (const edit of edits) {
    done = await attempt({ ...edit, start, end });
    if (!done) return null;
  }
  return done;
}
