import type { WayIn } from "@/lib/card/way";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { GettingIn } from "../way-player/getting-in";
import styles from "./arrival-card.module.css";

/** The way in on a card: on a screen it runs and steps, on paper every leg is a row of numbered stills. What is told of it stands above. */
export function WayDrawing({ site, way, units }: { readonly site: Site; readonly way: WayIn; readonly units: Units }) {
  return <div className={styles.wayPlan}><GettingIn site={site} way={way} units={units} /></div>;
}
