import type { ReactNode } from "react";
import type { Units } from "@/lib/measure";
import { groundPlane, type Site } from "@/lib/park";
import { boundsOf, centroid, type Point } from "@/lib/plane";
import { catalogueOf, numbersFor, siteThing, unbroken, type Numbers } from "@/lib/wording";
import { crossingOf } from "./crossing";
import styles from "./site.module.css";

interface MeasurementsProps {
  readonly site: Site;
  readonly units: Units;
  /** The day of the survey and how long ago that was, in words. */
  readonly survey: ReactNode;
}

/** Every number of a site's record, in words and the reader's units, in the order one meets them going in. */
export function Measurements({ site, units, survey }: MeasurementsProps) {
  const { site: words } = catalogueOf().staff;
  const n = numbersFor(units);
  return (
    <section aria-labelledby="measurements" className={styles.part}>
      <h2 id="measurements">{words.measurements}</h2>
      <p className={styles.note}>{words.frame}</p>
      <dl className={styles.facts}>
        <Fact name={words.survey}>{survey}</Fact>
        <Pad site={site} n={n} />
        <Ground site={site} n={n} />
        <Fact name={words.road}><Road edge={site.roadEdge} missing={words.roadAssumed} n={n} /></Fact>
        {site.entry === "pull-through" && <Fact name={words.exit}><Road edge={site.exitEdge} missing={words.noExit} n={n} /></Fact>}
        <Lot site={site} n={n} />
        {site.place && <Fact name={words.bearing}><Lines of={[words.bearingLine(site.place.bearing)]} /></Fact>}
        <Fact name={words.rules}><Lines of={(site.rules ? words.ruleLines(site.rules, n) : []).concat(site.rules ? [] : [words.noRules])} /></Fact>
      </dl>
      <Things title={words.hookups} none={words.noHookups} site={site} items={site.hookups.map((h) => ({ id: h.id, lines: [words.spot(spotOf(h.at), n), ...words.hookup(h, n)] }))} />
      <Things title={words.obstacles} none={words.noObstacles} site={site} items={site.obstacles.map((o) => ({ id: o.id, lines: [words.spot(spotOf(o.at ?? centroid(o.outline ?? [])), n), ...words.obstacle(o, n)], outline: o.outline }))} n={n} />
      {site.parking && site.parking.length > 0 && <Things title={words.parking} none={null} site={site} items={site.parking.map(({ id, outline }) => ({ id, lines: stallLines(outline, n) }))} />}
    </section>
  );
}

function Pad({ site: { pad }, n }: { readonly site: Site; readonly n: Numbers }) {
  const { site: words } = catalogueOf().staff;
  const { minX, maxX, minY, maxY } = boundsOf(pad.outline);
  return <Fact name={words.pad}><Lines of={[words.padSize(pad.surface, maxX - minX, maxY - minY, n)]} /><Corners of={pad.outline} n={n} /></Fact>;
}

function Ground({ site: { ground }, n }: { readonly site: Site; readonly n: Numbers }) {
  const { site: words, table } = catalogueOf().staff;
  const { alongGradient, acrossGradient, worstResidual } = groundPlane(ground);
  const { heights } = ground;
  return (
    <Fact name={words.ground}>
      <Lines of={[...words.groundLines(table.slopeAlong(100 * alongGradient), table.slopeAcross(100 * acrossGradient)), heights ? words.misfit(heights.length, worstResidual, n) : words.slopesOnly]} />
      {heights && (
        <details className={styles.points}>
          <summary>{words.spotHeights}</summary>
          <ol>{heights.map(([x, y, z]) => <li key={`${x} ${y}`}>{unbroken(`${words.spot({ into: x, left: y }, n)} ${words.spotHeight(z, n)}`)}</li>)}</ol>
        </details>
      )}
    </Fact>
  );
}

function Road({ edge, missing, n }: { readonly edge: Site["roadEdge"]; readonly missing: string; readonly n: Numbers }) {
  const { site: words } = catalogueOf().staff;
  if (!edge) return <Lines of={[missing]} />;
  const crossing = crossingOf(edge);
  return <Lines of={[crossing ? words.roadLine(crossing, n) : words.roadAlong]} />;
}

function Lot({ site: { lot }, n }: { readonly site: Site; readonly n: Numbers }) {
  const { site: words } = catalogueOf().staff;
  if (!lot) return <Fact name={words.lot}><Lines of={[words.noLot]} /></Fact>;
  const { minX, maxX, minY, maxY } = boundsOf(lot.outline);
  return (
    <Fact name={words.lot}>
      <Lines of={[words.lotSize({ long: maxX - minX, wide: maxY - minY, fromInto: minX, left: maxY, right: -minY }, n)]} />
      <Corners of={lot.outline} n={n} />
    </Fact>
  );
}

function Corners({ of, n }: { readonly of: readonly Point[]; readonly n: Numbers }) {
  const { site: words } = catalogueOf().staff;
  return (
    <details className={styles.points}>
      <summary>{words.corners(of.length)}</summary>
      <ol>{of.map((corner) => <li key={corner.join(" ")}>{unbroken(words.spot(spotOf(corner), n))}</li>)}</ol>
    </details>
  );
}

interface ThingsProps {
  readonly title: string;
  readonly none: string | null;
  readonly site: Site;
  readonly items: readonly { readonly id: string; readonly lines: readonly string[]; readonly outline?: readonly Point[] | undefined }[];
  readonly n?: Numbers;
}

function Things({ title, none, site, items, n }: ThingsProps) {
  const { staff: { site: words }, things } = catalogueOf();
  return (
    <>
      <h3>{title}</h3>
      {items.length === 0 ? <p>{none}</p> : (
        <dl className={styles.facts}>
          {items.map(({ id, lines, outline }) => (
            <Fact key={id} name={words.name(things.full(siteThing(id, site) ?? { type: "other", id }))}><Lines of={lines} />{outline && n && <Corners of={outline} n={n} />}</Fact>
          ))}
        </dl>
      )}
    </>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return <div><dt>{name}</dt><dd>{children}</dd></div>;
}

function Lines({ of }: { readonly of: readonly string[] }) {
  return of.map((line) => <p key={line}>{unbroken(line)}</p>);
}

function spotOf([into, left]: Point) {
  return { into, left };
}

function stallLines(outline: readonly Point[], n: Numbers): string[] {
  const { site: words } = catalogueOf().staff;
  const { minX, maxX, minY, maxY } = boundsOf(outline);
  const long = Math.max(maxX - minX, maxY - minY), wide = Math.min(maxX - minX, maxY - minY);
  return [words.stall({ long, wide }, n), words.stallFrom(minX, (minY + maxY) / 2, n)];
}
