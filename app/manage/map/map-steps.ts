/** What a dragged site is drawn to, mm: a foot, or half a meter. */
export const GRID = { "ft-in": 304.8, metric: 500 } as const;

/** How far a key moves a site, mm. */
export const STEP = { "ft-in": { step: 304.8, big: 3048, fine: 25.4 }, metric: { step: 500, big: 5000, fine: 50 } } as const;
