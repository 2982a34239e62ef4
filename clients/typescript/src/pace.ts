// How many requests are under way at a time: as many as the service takes, found out as it goes. A refusal (429, 503) or
// a lost connection halves the level, once for all that were under way then. Every answer raises it: quickly until the
// first refusal, later by one for each round of answers, slowly near the level that was refused last. A refused request
// goes before all that have not been sent yet, and while it waits nothing rises.

import { onAbort } from "./aborting.js";

const FIRST_LEVEL = 4;
/** From this part of the refused level on the level rises slowly. */
const NEAR = 0.8;
const SLOWLY = 0.05;

class Level {
  value: number;
  #refused: number | undefined;

  constructor(readonly most: number) {
    this.value = Math.min(FIRST_LEVEL, most);
  }

  rise(): void {
    let step = 1;
    if (this.#refused !== undefined) step = (this.value + 1 < NEAR * this.#refused ? 1 : SLOWLY) / this.value;
    this.value = Math.min(this.most, this.value + step);
  }

  fall(underWay: number): void {
    this.#refused = Math.min(this.value, underWay);
    this.value = Math.max(1, this.#refused / 2);
  }
}

/** One request at the gate: outside, waiting (`wake` is called when its turn comes), or under way. */
export class Place {
  waiting = false;
  underWay = false;
  refused = false;
  number = 0;
  wake: (() => void) | undefined;
}

/** Lets requests through as the level allows, those that were refused before others, else in order. */
export class Gate {
  readonly #level: Level;
  readonly #waiting: Place[] = [];
  #underWay = 0;
  #refused = 0;
  #sent = 0;
  #sentBeforeFall = 0;

  constructor(most: number) {
    this.#level = new Level(most);
  }

  /** Resolves when the request may be sent; rejects with the signal's reason when it is aborted before. */
  turn(place: Place, signal: AbortSignal | undefined): Promise<void> {
    return new Promise((resolve, reject) => {
      const forget = onAbort(signal, reject);
      place.wake = () => {
        forget();
        resolve();
      };
      if (signal?.aborted) return;
      if (place.underWay) {
        this.#send(place);
        place.wake();
        return;
      }
      place.waiting = true;
      if (place.refused) this.#waiting.unshift(place);
      else this.#waiting.push(place);
      this.#letIn();
    });
  }

  /** Says whether the service took the request. One that was refused while no other was under way keeps its place: the
   * service is busy with others, or away, and all wait until the pause of that one is over. */
  settle(place: Place, taken: boolean): void {
    if (taken) {
      if (this.#refused === 0) this.#level.rise();
      this.#free(place);
      return;
    }
    if (place.number > this.#sentBeforeFall) {
      this.#level.fall(this.#underWay);
      this.#sentBeforeFall = this.#sent;
    }
    this.#mark(place, true);
    if (this.#underWay > 1) this.#free(place);
  }

  /** The request is over, whatever became of it. */
  leave(place: Place): void {
    if (place.waiting) this.#waiting.splice(this.#waiting.indexOf(place), 1);
    place.waiting = false;
    this.#mark(place, false);
    this.#free(place);
  }

  #letIn(): void {
    while (this.#underWay < Math.floor(this.#level.value)) {
      const place = this.#waiting.shift();
      if (place === undefined) return;
      this.#underWay += 1;
      place.waiting = false;
      place.underWay = true;
      this.#send(place);
      place.wake?.();
    }
  }

  #send(place: Place): void {
    this.#sent += 1;
    place.number = this.#sent;
    this.#mark(place, false);
  }

  #mark(place: Place, refused: boolean): void {
    this.#refused += Number(refused) - Number(place.refused);
    place.refused = refused;
  }

  #free(place: Place): void {
    if (place.underWay) {
      place.underWay = false;
      this.#underWay -= 1;
    }
    this.#letIn();
  }
}
