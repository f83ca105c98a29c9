// The recording: from a moment to another, and no further.
import { byId, clock, tell } from './dom.js';

let until = null;
const recording = () => byId('recording');

/** Play from `start`, stopping at `end` where one is given. */
export function play(start, end = null) {
  const media = recording();
  if (!media) {
    tell(`There is no recording; it was said at ${clock(start)}.`);
    return;
  }
  until = end;
  media.currentTime = Math.max(0, start - 0.2);
  media.play().catch(() => tell('The recording cannot be played.'));
}

/** Stop, or go on from here. */
export function pause() {
  const media = recording();
  if (!media) return;
  until = null;
  if (media.paused) media.play().catch(() => {});
  else media.pause();
}

export function watchPlayer(moved) {
  const media = recording();
  if (!media) return;
  media.addEventListener('timeupdate', () => {
    if (until !== null && media.currentTime >= until + 0.4) {
      until = null;
      media.pause();
    }
    moved(media.currentTime, !media.paused);
  });
  media.addEventListener('seeking', () => moved(media.currentTime, false));
}
