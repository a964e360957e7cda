/** How many sites of how many are written. */
export interface ReadInProgress {
  readonly done: number;
  readonly of: number;
}

/** A line of the answer: how far it is, or at its end where to go on. */
export type ReadInLine = ReadInProgress | { readonly to: string };

/** Has an upload read in and tells how far it is. Answers the address that says what came of it; null where the answer broke off before that. */
export async function followReadIn(href: string, form: FormData, tell: (progress: ReadInProgress) => void): Promise<string | null> {
  const answer = await fetch(href, { method: "POST", body: form, cache: "no-store" });
  const reader = answer.ok ? answer.body?.pipeThrough(new TextDecoderStream()).getReader() : undefined;
  if (!reader) return null;
  let rest = "";
  for (let chunk = await reader.read(); !chunk.done; chunk = await reader.read()) {
    const lines = (rest + chunk.value).split("\n");
    rest = lines.pop() ?? "";
    for (const line of lines) {
      const said = JSON.parse(line) as ReadInLine;
      if ("to" in said) return said.to;
      tell(said);
    }
  }
  return null;
}
