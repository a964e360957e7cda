import { wayLines } from "@/lib/card/words";
import type { WayIn } from "@/lib/card/way";
import type { FitResult, Policy } from "@/lib/fit";
import { RankingStopped, rankInPool } from "@/lib/jobs/fit-pool";
import { wayIn } from "@/lib/jobs/way-in";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { wayIn as words } from "@/lib/wording/en/way-in";
import { GettingIn } from "./getting-in";
import styles from "./way-player.module.css";

interface GettingInSectionProps {
  readonly site: Site;
  readonly rig: Rig;
  readonly result: FitResult;
  readonly policy: Policy;
  readonly units: Units;
  /** The way that is asked for, where there are two, and the page's address with another side asked for; without it the other way takes script. */
  readonly from?: "left" | "right" | null;
  readonly hrefFrom?: (from: "left" | "right") => string;
}

/** How this rig comes onto this site to where it would stand, or what keeps it from getting there; nothing where it has no place. */
export async function GettingInSection({ site, rig, result, policy, units, from = null, hrefFrom }: GettingInSectionProps) {
  if (!result.pose && result.access?.state !== "no") return null;
  const way = await workedOut(async () => {
    // Where nothing gets there the answer has no pose; where the rig would stand is then told by the site alone.
    const pose = result.pose ?? (await rankInPool([site], rig, policy))[0]?.pose;
    return pose ? wayIn({ site, rig, pose, policy }) : null;
  });
  return (
    <section className={styles.section} id="getting-in" aria-labelledby="getting-in-title">
      <h2 id="getting-in-title" className={styles.title}>{words.title}</h2>
      {way === "stopped" ? <p>{words.stopped}</p> : <GettingIn site={site} way={way} units={units} from={from} {...(hrefFrom ? { hrefFrom } : {})} tell={(told) => wayLines(told, { site, rig, result, units })} />}
    </section>
  );
}

/** A way that could not be worked out in time takes nothing from the rest of the page. */
async function workedOut(work: () => Promise<WayIn | null>): Promise<WayIn | null | "stopped"> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof RankingStopped) return "stopped";
    throw error;
  }
}
