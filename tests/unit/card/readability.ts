/**
 * The Flesch–Kincaid grade level: 0.39 x words per sentence + 11.8 x syllables per word − 15.59. Kincaid, Fishburne, Rogers
 * and Chissom, Derivation of New Readability Formulas for Navy Enlisted Personnel (1975); from memory. Numbers and units
 * count as one syllable each.
 */
export function gradeOf(sentences: readonly string[]): number {
  const words = sentences.map(wordsOf), all = words.flat();
  return 0.39 * (all.length / words.length) + 11.8 * (all.reduce((sum, word) => sum + syllablesOf(word), 0) / all.length) - 15.59;
}

export function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.?!:])\s+/).filter((part) => /[a-z]/i.test(part));
}

function wordsOf(sentence: string): string[] {
  return sentence.match(/[A-Za-z’']+|\d[\d./]*/g) ?? [];
}

/** Groups of vowels, less a silent e at the end: right for most English words, a little high for the others. */
export function syllablesOf(word: string): number {
  const plain = word.toLowerCase().replace(/[^a-z]/g, "");
  if (plain.length <= 3) return 1;
  const groups = plain.replace(/(?:[^laeiouy]es|[^laeiouytd]ed|[^laeiouy]e)$/, "").match(/[aeiouy]+/g)?.length ?? 0;
  return Math.max(1, groups);
}
