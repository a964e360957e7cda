import type { Barred } from "@/lib/access";
import type { WayIn, WayShown } from "@/lib/card/way";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { numbersFor, unbroken } from "@/lib/wording";
import { wayIn as words } from "@/lib/wording/en/way-in";
import { makeReel, nearInWords } from "./make-reel";
import { nameOnWay } from "./name-on-way";
import { GroundMarks, OverheadMarks, TextMarks, WayPatterns } from "./still-marks";
import { frameOfWay } from "./way-frame";
import { WayPlayer } from "./way-player";
import { layoutWay } from "./way-sheet";
import { TriedWay, WayLegend, WayStills } from "./way-still";
import styles from "./way-player.module.css";

interface GettingInProps {
  readonly site: Site;
  /** Null where nobody has measured the way in. */
  readonly way: WayIn | null;
  readonly units: Units;
  /** What is told of a way beside its drawing; nothing where it is told elsewhere on the page. */
  readonly tell?: (way: WayIn) => readonly string[];
  /** Which way is shown first where there are two, and the page that shows another one. */
  readonly from?: "left" | "right" | null;
  readonly hrefFrom?: (from: "left" | "right") => string;
}

/** How the rig comes onto the site: the way in moving, from either side where there are two; or the try that came nearest and why it will not do; or that nobody measured it. */
export function GettingIn({ site, way, units, tell, from = null, hrefFrom }: GettingInProps) {
  if (!way) return <p className={styles.notice}>{words.unknown}</p>;
  if (!way.way) return <NoWay site={site} way={way} units={units} />;
  const sides = [way.way, ...(way.other ? [way.other] : [])];
  return (
    <>
      {way.leave === "not-found" && <p className={styles.notice}>{words.noWayOut}</p>}
      <WayPlayer id={idOf(site)} first={Math.max(0, sides.findIndex((shown) => shown.from === from))} ways={sides.map((shown, i) => {
        const id = `${idOf(site)}-${i}`, { reel, sheet } = laidOut(site, shown, [], units);
        return {
          from: shown.from, ...(hrefFrom ? { href: hrefFrom(shown.from) } : {}), title: words.picture(site.label ?? site.id, shown.from), width: sheet.width, height: sheet.height, reel,
          patterns: <WayPatterns sheet={sheet} id={id} />, ground: <GroundMarks sheet={sheet} id={id} />, overhead: <OverheadMarks sheet={sheet} />, texts: <TextMarks sheet={sheet} />,
          legend: <WayLegend sheet={sheet} />, stills: <WayStills id={id} sheet={sheet} reel={reel} />,
          told: tell && <ul className={styles.told}>{tell({ ...way, way: shown }).map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>,
        };
      })} />
    </>
  );
}

function NoWay({ site, way: { state, barred, nearest, unmeasured }, units }: { readonly site: Site; readonly way: WayIn; readonly units: Units }) {
  const names = (ids: readonly string[]) => ids.map((id) => nameOnWay(id, site));
  return (
    <div className={styles.noWay}>
      <div>
        <p className={styles.verdict}>{state === "no" ? words.none : words.notFound}</p>
        <p>{state === "no" ? words.noneWhy : words.notFoundWhy}</p>
        {barred ? <p><strong>{unbroken(barLine(site, barred, units))}</strong></p> : nearest && <p>{unbroken(tryLine(site, nearest, units))}</p>}
        {unmeasured.length > 0 && <p>{words.unmeasured(names(unmeasured))}</p>}
      </div>
      {nearest && <TriedWay id={`${idOf(site)}-try`} title={words.tryPicture(site.label ?? site.id)} {...laidOut(site, nearest, barred?.things ?? [], units)} />}
    </div>
  );
}

/** What keeps any rig of this size from getting there; how high it hangs, where that is what bars. */
function barLine(site: Site, { code, things }: Barred, units: Units): string {
  if (code === "no-ground" || things.length === 0) return words.noGround;
  if (code === "barred-between") return words.barredBy(things.map((id) => nameOnWay(id, site)));
  return words.barredOver(things.map((id) => {
    const height = site.approach?.heightLimits.find((limit) => limit.id === id)?.height ?? site.obstacles.find((o) => o.id === id)?.crownFrom;
    return height === undefined ? nameOnWay(id, site) : words.withHeight(nameOnWay(id, site), numbersFor(units).spare(height));
  }));
}

function tryLine(site: Site, { gap }: WayShown, units: Units): string {
  const n = numbersFor(units), { short, part, other } = nearInWords(gap, site, n);
  return words.nearestTry(short ?? n.lacking(Math.max(0, -gap.room)), part, other);
}

function laidOut(site: Site, shown: WayShown, barred: readonly string[], units: Units) {
  const frame = frameOfWay(site, shown), reel = makeReel(site, shown, frame, numbersFor(units));
  return { reel, sheet: layoutWay(site, shown, barred, reel, frame, units) };
}

function idOf(site: Site): string {
  return `way-${site.id.replace(/[^A-Za-z0-9_-]/g, "_")}`;
}
