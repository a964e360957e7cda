/**
 * What one upload may hold: ten thousand sites with as much on them as the demo park's, in the form they go out in, with room to spare (24 MB of
 * JSON, 36,000 obstacles). What lies beyond is refused before anything is made of it.
 */
export const bounds = {
  /** All files of one upload together, bytes; the command line, where its own operator waits, takes `operatorBytes`. */
  bytes: 32_000_000,
  operatorBytes: 200_000_000,
  /** Files in one upload. */
  files: 40,
  /** Rows of one table, the header not counted. */
  rows: 50_000,
  operatorRows: 400_000,
  /** Values of one JSON file, lists and objects among them: what it is held in grows with these more than with its bytes. Ten thousand such sites have two million. */
  values: 3_000_000,
  operatorValues: 30_000_000,
  /** Columns of one table. */
  columns: 200,
  /** Characters in one cell: an outline of 500 corners takes some 8,000. */
  cell: 50_000,
  /** How deep lists and objects of a JSON file may lie in each other: a park's map takes 8. */
  depth: 40,
  /** Faults that are told of one upload; the rest is counted. */
  faults: 500,
} as const;

/** The bounds that differ between a page, behind which others wait, and the command line. */
export interface Limits {
  readonly bytes: number;
  readonly rows: number;
  readonly values: number;
}

export const pageLimits: Limits = { bytes: bounds.bytes, rows: bounds.rows, values: bounds.values };
export const operatorLimits: Limits = { bytes: bounds.operatorBytes, rows: bounds.operatorRows, values: bounds.operatorValues };
