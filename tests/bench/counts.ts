import { Envelope } from "@/lib/plane";

/** What an answer took, without a clock: the same on every machine. */
export interface Counts {
  /** Cells whose constraints were bounded, and single points looked at, in all searches of an answer. */
  readonly cells: number;
  /** Single constraints looked at, each for its value and its bounds over a cell, or at a point. */
  readonly evaluations: number;
}

/** Counts what `work` asks of envelopes of constraints. Not to be timed: counting costs. */
export function countsOf(work: () => void): Counts {
  const { survey, boundIn, reaches, valueAt, valueAmong } = Envelope.prototype;
  let cells = 0, evaluations = 0;
  Envelope.prototype.survey = function (cell, list, start, count, ...rest) {
    cells++;
    evaluations += count;
    return survey.call(this, cell, list, start, count, ...rest);
  };
  Envelope.prototype.boundIn = function (cell) {
    cells++;
    evaluations += this.size;
    return boundIn.call(this, cell);
  };
  Envelope.prototype.reaches = function (x, y, level) {
    cells++;
    evaluations += this.size; // at most: it ends at the first that fails
    return reaches.call(this, x, y, level);
  };
  Envelope.prototype.valueAt = function (x, y) {
    cells++;
    evaluations += this.size;
    return valueAt.call(this, x, y);
  };
  Envelope.prototype.valueAmong = function (x, y, list, start, count) {
    evaluations += count;
    return valueAmong.call(this, x, y, list, start, count);
  };
  try {
    work();
  } finally {
    Object.assign(Envelope.prototype, { survey, boundIn, reaches, valueAt, valueAmong });
  }
  return { cells, evaluations };
}
