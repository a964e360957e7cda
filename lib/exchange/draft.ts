import type { z } from "zod";
import type { Json } from "./cells";
import { shorten, type Faults } from "./faults";
import type { BoundColumn } from "./header";
import type { Path } from "./tables";

/** A site, or a rig with its name, as it is in the park. */
export interface Held {
  readonly id: string;
  readonly record: Json;
  /** The version of the site that this is; null for what is not counted. */
  readonly version: number | null;
}

/** From where in the upload a part of a record comes, so that what its schema complains of is told there. */
export interface Mark {
  readonly path: Path;
  readonly file: string;
  readonly row?: number;
  readonly columns?: readonly BoundColumn[];
  /** Before the path in a JSON file. */
  readonly at?: Path;
}

/** A record as the upload would have it, while it is made. `before` null: it is new. `after` null: it is taken out. */
export interface Draft {
  readonly id: string;
  readonly before: Held | null;
  after: Json | null;
  /** The whole record as a JSON file says it, its survey included, before tables and maps change it; null where none did. */
  stated: Json | null;
  readonly marks: Mark[];
}

/** All records of one kind that an upload names, by their ids. */
export class Drafts {
  readonly #held: ReadonlyMap<string, Held>;
  readonly #drafts = new Map<string, Draft>();

  constructor(held: readonly Held[]) {
    this.#held = new Map(held.map((one) => [one.id.trim(), one]));
  }

  /** The draft of a record; where it is not in the park, null, or a new one that begins with `fresh`. */
  open(id: string, fresh: Json | null): Draft | null {
    const known = this.#drafts.get(id.trim());
    if (known) return known;
    const held = this.#held.get(id.trim());
    if (!held && fresh === null) return null;
    const draft: Draft = { id: held?.id ?? id, before: held ?? null, after: structuredClone(held?.record ?? fresh), stated: null, marks: [] };
    this.#drafts.set(id.trim(), draft);
    return draft;
  }

  /** Everything of the park that no file named is taken out. */
  dropOthers(): void {
    for (const id of this.#held.keys()) if (!this.#drafts.has(id)) this.open(id, null)!.after = null;
  }

  all(): Draft[] {
    return [...this.#drafts.values()];
  }

  /** Every record as the upload would have it, by its id. */
  records(): Map<string, Json> {
    const records = new Map([...this.#held.values()].map(({ id, record }) => [id, record]));
    for (const { id, after } of this.#drafts.values()) if (after === null) records.delete(id); else records.set(id, after);
    return records;
  }

  get heldCount(): number {
    return this.#held.size;
  }
}

/** Tells what a schema finds wrong with a draft, each fault where in the upload its number stands. */
export function tellIssues(draft: Draft, issues: readonly z.core.$ZodIssue[], faults: Faults): void {
  for (const issue of issues) {
    const path = issue.path.filter((key) => typeof key !== "symbol");
    const mark = markOf(draft, path);
    if (!mark) {
      faults.add({ file: draft.marks[0]?.file ?? "", code: "record", at: `${draft.id}: ${path.join(".")}`, need: issue.message });
      continue;
    }
    const rest = path.slice(mark.path.length), column = mark.columns?.find((one) => begins(rest, one.column.path)) ?? mark.columns?.find((one) => begins(one.column.path, rest));
    const at = mark.columns ? (column ? null : [draft.id, path.join(".")].filter(Boolean).join(": ")) : [...(mark.at ?? []), ...rest].join(".");
    const given = column && rest.length > 0 ? undefined : path.length === 0 ? shorten(draft.id) : undefined;
    faults.add({ file: mark.file, code: "record", need: issue.message, ...(mark.row === undefined ? {} : { row: mark.row }), ...(column ? { column: column.header } : {}), ...(at ? { at } : {}), ...(given ? { given } : {}) });
  }
}

/** The mark that lies closest to a path; of several rows the last, which wrote over the others. */
function markOf({ marks }: Draft, path: Path): Mark | undefined {
  return marks.filter((mark) => begins(path, mark.path)).reduce<Mark | undefined>((best, mark) => (best && best.path.length > mark.path.length ? best : mark), undefined);
}

function begins(path: Path, beginning: Path): boolean {
  return beginning.length <= path.length && beginning.every((key, i) => key === path[i]);
}
