import type { Units } from "@/lib/measure";
import type { Site, SiteDifference } from "@/lib/park";
import { catalogueOf } from "@/lib/wording";
import { Plan } from "../../../../components/plan/plan";
import type { ObstacleShape, PlanLayout } from "../../../../components/plan/types";
import styles from "./change.module.css";

const { siteChanges: { plans: words } } = catalogueOf();

interface PlansProps {
  readonly before: Site | null;
  readonly after: Site | null;
  readonly names: readonly [before: string, after: string];
  readonly differences: readonly SiteDifference[];
  readonly units: Units;
}

/** What is seen on a plan. */
const drawn: ReadonlySet<SiteDifference["part"]> = new Set(["obstacles", "hookups", "parking", "pad", "lot", "roadEdge", "exitEdge", "entry", "place"]);

/** Whether two plans would differ; where one of the two is not there they do. */
export function plansDiffer(differences: readonly SiteDifference[]): boolean {
  return differences.length === 0 || differences.some(({ part }) => drawn.has(part));
}

/** Two records of a site drawn beside one another, with what differs marked on both. */
export function PlansBeside({ before, after, names, differences, units }: PlansProps) {
  const sides = [{ site: before, name: names[0], as: "before" }, { site: after, name: names[1], as: "after" }] as const;
  return (
    <>
      <div className={styles.plans}>
        {sides.map(({ site, name, as }) => (
          <div key={as}>
            <h3>{name}</h3>
            {site ? <Plan site={{ ...site, id: `${site.id}-${as}`, label: site.label ?? site.id }} units={units} overlay={(layout) => <Marks layout={layout} differences={differences} />} /> : <p className={styles.note}>{words.noPlan}</p>}
          </div>
        ))}
      </div>
      {differences.some(isMarked) && <p className={styles.note}>{words.marks}</p>}
    </>
  );
}

function isMarked({ part }: SiteDifference): boolean {
  return part === "obstacles" || part === "hookups" || part === "parking" || part === "pad" || part === "lot";
}

/** Around a mark, units of the drawing. */
const AROUND = 7;

function Marks({ layout, differences }: { readonly layout: PlanLayout; readonly differences: readonly SiteDifference[] }) {
  const has = (part: SiteDifference["part"], id: string | null = null) => differences.some((difference) => difference.part === part && difference.id === id);
  const rings = [has("pad") ? layout.pad : null, has("lot") ? layout.lot : null, ...layout.stalls.map(({ id, points }) => (has("parking", id) ? points : null))].flatMap((ring) => (ring ? [ring] : []));
  return (
    <g className={styles.marks}>
      {rings.map((ring, i) => <polygon key={i} points={ring.map((at) => at.join(",")).join(" ")} />)}
      {layout.obstacles.filter(({ id }) => has("obstacles", id)).map((shape) => <ObstacleMark key={shape.id} shape={shape} />)}
      {layout.hookups.filter(({ id }) => has("hookups", id)).map(({ id, symbol: [x, y] }) => <circle key={id} cx={x} cy={y} r={2 * AROUND} />)}
    </g>
  );
}

function ObstacleMark({ shape }: { readonly shape: ObstacleShape }) {
  if (shape.type === "outline") return <polygon points={shape.points.map((at) => at.join(",")).join(" ")} />;
  const { at: [x, y], r } = shape.type === "tree" ? shape.trunk : shape.disc;
  return <circle cx={x} cy={y} r={r + AROUND} />;
}
