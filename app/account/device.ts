import { catalogueOf } from "@/lib/wording";

// In this order: most browsers also call themselves by the names of others.
const browsers: readonly [RegExp, string][] = [[/Edg(e|A|iOS)?\//, "Edge"], [/OPR\//, "Opera"], [/Firefox\/|FxiOS\//, "Firefox"], [/SamsungBrowser\//, "Samsung Internet"], [/Chrom(e|ium)\/|CriOS\//, "Chrome"], [/Safari\//, "Safari"]];
const systems: readonly [RegExp, string][] = [[/iPhone/, "iPhone"], [/iPad/, "iPad"], [/Android/, "Android"], [/Windows/, "Windows"], [/Mac OS X/, "Mac"], [/CrOS/, "Chromebook"], [/Linux/, "Linux"]];

/** "Firefox on Windows", so that people recognize their own; a hint, since every browser says what it likes. */
export function deviceName(agent: string | null): string {
  const { own } = catalogueOf().accounts;
  const browser = nameIn(browsers, agent), system = nameIn(systems, agent);
  return browser && system ? own.device(browser, system) : browser ?? system ?? own.unknownDevice;
}

function nameIn(known: readonly [RegExp, string][], agent: string | null): string | undefined {
  return known.find(([pattern]) => pattern.test(agent ?? ""))?.[1];
}
