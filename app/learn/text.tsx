import type { Units } from "@/lib/measure";
import { catalogueOf, unbroken } from "@/lib/wording";

/** [[id]] or [[id|as it reads]]: a term of the trade. */
const TERM = /\[\[([a-z0-9-]+)(?:\|([^\]]+))?\]\]/g;

interface TextProps {
  readonly children: string;
  readonly units: Units;
  /** On the page of words itself, where terms are anchors of the same page. */
  readonly here?: boolean;
}

/** A sentence whose terms of the trade lead to what they mean, and whose numbers stay with their units. */
export function Text({ children, units, here = false }: TextProps) {
  const page = here ? "" : wordsPath(units);
  const pieces: React.ReactNode[] = [];
  let done = 0;
  for (const match of children.matchAll(TERM)) {
    const [whole, id = "", reads] = match;
    if (match.index > done) pieces.push(unbroken(children.slice(done, match.index)));
    pieces.push(<a key={match.index} href={`${page}#${id}`}>{reads ?? termAsRead(id)}</a>);
    done = match.index + whole.length;
  }
  pieces.push(unbroken(children.slice(done)));
  return <>{pieces}</>;
}

/** The text as it reads, without the marks of its terms. */
export function plainText(text: string): string {
  return text.replace(TERM, (_, id: string, reads?: string) => reads ?? termAsRead(id));
}

/** A term inside a sentence: small where it begins like a name only on its own line. */
export function termAsRead(id: string): string {
  const term = catalogueOf().learn.words.terms.find((t) => t.id === id)?.term;
  if (!term) throw new RangeError(`no term of the trade has the id "${id}"`);
  return term.charAt(0).toLowerCase() + term.slice(1);
}

function wordsPath(units: Units): string {
  return `/learn/words?units=${units}`;
}
