import { one, type Params } from "../../components/rig-form/params";

export const originFields = ["latitude", "longitude", "bearing"] as const;
export type OriginField = (typeof originFields)[number];

const RANGE: Readonly<Record<OriginField, number>> = { latitude: 80, longitude: 180, bearing: 360 };

export interface OriginForm {
  readonly texts: Readonly<Record<OriginField, string>>;
  readonly faults: readonly OriginField[];
  /** Where nothing is wrong. */
  readonly origin: Readonly<Record<OriginField, number>> | null;
}

/** What somebody typed for where the map lies. A bearing left empty is none. */
export function readOriginForm(params: Params): OriginForm {
  const texts = { latitude: one(params.latitude)?.trim() ?? "", longitude: one(params.longitude)?.trim() ?? "", bearing: one(params.bearing)?.trim() ?? "" };
  const read = (field: OriginField) => {
    const text = texts[field].replace(/[−–]/, "-").replace("°", "").trim();
    if (text === "" && field === "bearing") return 0;
    const value = /^-?\d{1,3}(\.\d{1,12})?$/.test(text) ? Number(text) : NaN;
    return Math.abs(value) <= RANGE[field] ? value : NaN;
  };
  const origin = { latitude: read("latitude"), longitude: read("longitude"), bearing: read("bearing") }, faults = originFields.filter((field) => Number.isNaN(origin[field]));
  return { texts, faults, origin: faults.length === 0 ? origin : null };
}
