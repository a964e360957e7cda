import type { Metadata } from "next";
import type { Params } from "../../components/rig-form/params";
import { catalogueOf } from "@/lib/wording";
import { learnContext } from "../context";
import { Frame } from "../frame";
import { Text } from "../text";
import styles from "../learn.module.css";

export const metadata: Metadata = { title: catalogueOf().learn.words.title };

/** The terms of the trade in plain words, each with an anchor, in the order of the alphabet. */
export default async function WordsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { units } = await learnContext(searchParams);
  const { learn: { words }, tag } = catalogueOf();
  const letters = lettersOf(words.terms, tag);
  return (
    <Frame page="words" units={units} title={words.title} lead={<p>{words.lead}</p>}>
      <nav className={styles.letters} aria-label={words.letters}>
        <ul>{letters.map(({ letter }) => <li key={letter}><a href={`#letter-${letter}`}>{letter}</a></li>)}</ul>
      </nav>
      {letters.map(({ letter, terms }) => (
        <section key={letter} aria-labelledby={`letter-${letter}`}>
          <h2 id={`letter-${letter}`} className={styles.letter}>{letter}</h2>
          <dl className={styles.terms}>
            {terms.map(({ id, term, also, text }) => (
              <div key={id} id={id}>
                <dt><dfn>{term}</dfn>{also && <span className={styles.also}> {words.also(also)}</span>}</dt>
                <dd><Text units={units} here>{text}</Text></dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </Frame>
  );
}

type Terms = ReturnType<typeof catalogueOf>["learn"]["words"]["terms"];

function lettersOf(terms: Terms, tag: string): { readonly letter: string; readonly terms: Terms }[] {
  const sorted = [...terms].sort((a, b) => a.term.localeCompare(b.term, tag));
  const letters = [...new Set(sorted.map((t) => t.term.charAt(0).toLocaleUpperCase(tag)))];
  return letters.map((letter) => ({ letter, terms: sorted.filter((t) => t.term.charAt(0).toLocaleUpperCase(tag) === letter) }));
}
