import type { Draft } from "@/lib/park/edit/record";

/** Unsaved work on a site, as a browser's tab keeps it: it survives a reload and a lost connection, and nobody else sees it. */
export interface Kept {
  readonly draft: Draft;
  /** The version that it began from; null: a new site. */
  readonly base: number | null;
}

/** The tab's storage may be full or forbidden; then there is nothing kept, and editing goes on. */
export function keep(name: string, kept: Kept | null): void {
  try {
    if (kept === null) sessionStorage.removeItem(name);
    else sessionStorage.setItem(name, JSON.stringify(kept));
  } catch {
    return;
  }
}

export function readKept(name: string): string | null {
  try {
    return sessionStorage.getItem(name);
  } catch {
    return null;
  }
}

/** What was kept, if it is a record of this site at all. What is wrong with it is told like everything else. */
export function parseKept(text: string | null, siteId: string): Kept | null {
  if (text === null) return null;
  try {
    const { draft, base } = JSON.parse(text) as Partial<Kept>;
    const sound = draft !== undefined && draft.id === siteId && Array.isArray(draft.pad?.outline) && typeof draft.ground === "object" && (base === null || typeof base === "number");
    return sound ? { draft, base } : null;
  } catch {
    return null;
  }
}
