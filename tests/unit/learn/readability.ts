/** Sentences, words and syllables of a text, and the school grade it reads at. */
export interface Readability {
  readonly sentences: number;
  readonly words: number;
  readonly syllables: number;
  readonly grade: number;
}

/**
 * Flesch-Kincaid grade level: 0.39 words a sentence + 11.8 syllables a word − 15.59. J. P. Kincaid, R. P. Fishburne,
 * R. L. Rogers, B. S. Chissom, Naval Technical Training Command Research Branch Report 8-75 (1975); the formula is
 * from memory. Each text is at least one sentence. A number is one word of one syllable, as is a mark like "ft".
 */
export function readabilityOf(texts: readonly string[]): Readability {
  const sentences = texts.flatMap((text) => text.split(/(?<=[.!?])\s+/)).filter((s) => /[A-Za-z]/.test(s)).length;
  const words = texts.flatMap((text) => text.match(/[A-Za-z0-9][A-Za-z0-9'’./-]*/g) ?? []).flatMap((word) => word.replace(/[./]+$/, "").split("-")).filter(Boolean);
  const syllables = words.reduce((sum, word) => sum + syllablesIn(word), 0);
  return { sentences, words: words.length, syllables, grade: 0.39 * (words.length / sentences) + 11.8 * (syllables / words.length) - 15.59 };
}

/** Groups of vowels, less a silent e, es or ed at the end. English has no rule without exceptions: some words come out one off, either way. */
export function syllablesIn(word: string): number {
  const plain = word.toLowerCase().replace(/[^a-z]/g, "");
  if (plain.length <= 3) return 1;
  const spoken = plain.replace(/(?:[^laeiouyscxzgh]es|[^td]ed|[^l]e)$/, (end) => end.charAt(0)).replace(/^y/, "");
  return Math.max(1, spoken.match(/[aeiouy]+/g)?.length ?? 1);
}
