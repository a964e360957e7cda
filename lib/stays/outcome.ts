/** How a stay went, as the desk heard it when the guest left: as planned, or the rig stood elsewhere, or it was too tight, or something was damaged. */
export const outcomes = ["as-planned", "moved", "too-tight", "damage"] as const;
export type Outcome = (typeof outcomes)[number];
