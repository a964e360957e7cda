import type { Site } from "@/lib/park";
import type { Choice } from "./choice";

/** The sites that a choice asks for, in the park's order. */
export function shownSites(sites: readonly Site[], { loop }: Pick<Choice, "loop">): Site[] {
  return sites.filter((site) => loop === null || site.loop === loop);
}
