import { catalogueOf } from "@/lib/wording";
import { Creek, fixed, Furniture, NameMark, pathOf, Roads, SiteMark } from "./marks";
import type { MapLayout, SheetPoint, SiteOnMap } from "./types";
import styles from "./park-map.module.css";

interface ParkMapProps {
  readonly layout: MapLayout;
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  /** Where a site's mark leads; marks lead nowhere, and the map is one picture, where left out. */
  readonly hrefOf?: (siteId: string) => string;
}

/** The park drawn to scale as a surveyor's sheet, each site with its verdict's mark. Drawn on the server; needs no script. */
export function ParkMap({ layout, id, title, hrefOf }: ParkMapProps) {
  const { guestSites: { map: words } } = catalogueOf();
  const { width, height } = layout;
  return (
    <svg className={styles.sheet} viewBox={`0 0 ${width} ${fixed(height)}`} role={hrefOf ? "group" : "img"} aria-labelledby={`${id}-title`}>
      <title id={`${id}-title`}>{title}</title>
      <Patterns id={id} />
      <g aria-hidden="true"><Ground layout={layout} id={id} /></g>
      {layout.sites.map((site) => (hrefOf ? <SiteLink key={site.id} site={site} size={layout.markSize} href={hrefOf(site.id)} /> : <g key={site.id} aria-hidden="true"><SiteMark site={site} size={layout.markSize} /></g>))}
      <g aria-hidden="true">
        {layout.labels.map((label) => <NameMark key={label.id} label={label} />)}
        <Furniture layout={layout} north={words.north} />
      </g>
    </svg>
  );
}

function SiteLink({ site, size, href }: { readonly site: SiteOnMap; readonly size: number; readonly href: string }) {
  const { guestSites: { map: words }, guestStay: { sites: { siteTaken } }, verdicts } = catalogueOf();
  const { label, standing: { verdict, shown, taken }, mark: [x, y] } = site;
  const name = shown && taken && verdict ? siteTaken(label, verdicts[verdict].label) : words.site(label, !shown ? words.filteredOut : verdict ? verdicts[verdict].label : null);
  return (
    <a href={href} className={styles.link} aria-label={name}>
      <title>{name}</title>
      <circle className={styles.target} cx={fixed(x)} cy={fixed(y)} r={fixed(size + 4)} />
      <SiteMark site={site} size={size} />
    </a>
  );
}

function Ground({ layout, id }: { readonly layout: MapLayout; readonly id: string }) {
  const { width, height, areas, creek, paths, roads, buildings, neighbours, sites } = layout;
  return (
    <g clipPath={`url(#${id}-sheet)`}>
      <clipPath id={`${id}-sheet`}><rect x="3" y="3" width={width - 6} height={fixed(height - 6)} /></clipPath>
      {areas.map((a, i) => <polygon key={i} className={styles[a.kind === "overflow-parking" ? "parking" : a.kind === "woods" ? "woods" : "grass"]} fill={`url(#${id}-${a.kind === "woods" ? "woods" : a.kind === "overflow-parking" ? "parking" : "grass"})`} points={pointsOf(a.points)} />)}
      <Creek creek={creek} />
      {paths.map((p, i) => <path key={i} className={styles.path} d={pathOf(p.points)} strokeWidth={fixed(Math.min(p.width, 2))} />)}
      <Roads roads={roads} />
      {neighbours.map((points, i) => <polygon key={i} className={styles.padFaint} points={pointsOf(points)} />)}
      {sites.map((s) => <polygon key={s.id} className={s.selected ? styles.padChosen : styles.pad} points={pointsOf(s.pad)} />)}
      {buildings.map((b, i) => <g key={i}><polygon className={styles.building} points={pointsOf(b.points)} /><polygon fill={`url(#${id}-roof)`} points={pointsOf(b.points)} /></g>)}
      {sites.map((s) => Math.hypot(s.mark[0] - s.middle[0], s.mark[1] - s.middle[1]) > layout.markSize && <line key={s.id} className={styles.leader} x1={fixed(s.middle[0])} y1={fixed(s.middle[1])} x2={fixed(s.mark[0])} y2={fixed(s.mark[1])} />)}
      <rect className={styles.foot} x="0" y={fixed(height - 44)} width={width} height="44" />
    </g>
  );
}

/** Woods as little crowns, grass as tufts, roofs and parking hatched: ink on paper, one sheet in a printer's black. */
function Patterns({ id }: { readonly id: string }) {
  return (
    <defs>
      <pattern id={`${id}-woods`} width="22" height="20" patternUnits="userSpaceOnUse">
        <path className={styles.crown} d="M3 8a3.4 3.4 0 0 1 2-5 3.6 3.6 0 0 1 6 1.2 3 3 0 0 1-1 5.2 4 4 0 0 1-7-1.4zM14 17.5a2.8 2.8 0 0 1 1.6-4.2 3 3 0 0 1 4.9 1.1 2.5 2.5 0 0 1-.9 4.1 3.3 3.3 0 0 1-5.6-1z" />
      </pattern>
      <pattern id={`${id}-grass`} width="24" height="18" patternUnits="userSpaceOnUse"><path className={styles.tuft} d="M4 6l-1.6-3M4 6V2M4 6l1.6-3M16 15l-1.6-3M16 15v-4M16 15l1.6-3" /></pattern>
      <pattern id={`${id}-parking`} width="7" height="7" patternUnits="userSpaceOnUse"><line className={styles.tuft} x1="0" y1="0" x2="0" y2="7" /></pattern>
      <pattern id={`${id}-roof`} width="3" height="3" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line className={styles.roof} x1="0" y1="0" x2="0" y2="3" /></pattern>
    </defs>
  );
}

function pointsOf(points: readonly SheetPoint[]): string {
  return points.map(([x, y]) => `${fixed(x)},${fixed(y)}`).join(" ");
}
