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

/** Make a stretch what was chosen; `where` is what it is now: the place of its dish, or why it is left out. */
export function put(kind, { start, end }, where) {
  if (kind === OWN) return attempt({ do: 'add dish', start, end });
  if (kind.startsWith(OF)) return attempt({ do: 'take in', dish: kind.slice(OF.length), start, end });
  if (where.dish >= 0) return attempt({ do: 'leave out', dish: desk.draft.dishes[where.dish].key, start, end, reason: kind });
  return attempt({ do: 'name talk', start, end, reason: kind });
}
