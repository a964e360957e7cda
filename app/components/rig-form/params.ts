export type Params = Record<string, string | string[] | undefined>;

/** Nothing a field can mean is longer. */
const LONGEST = 80;
/** Nor are there more values of one name. */
const MOST = 20;

export function one(value: string | string[] | undefined): string | undefined {
  const first = Array.isArray(value) ? value[0] : value;
  return first?.slice(0, LONGEST);
}

export function list(value: string | string[] | undefined): string[] {
  return (Array.isArray(value) ? value : value === undefined ? [] : [value]).slice(0, MOST).map((v) => v.slice(0, LONGEST)).filter((v) => v !== "");
}
