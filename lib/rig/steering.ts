import { isMotorized, type Rig } from "./schema";

/** Lengths of what steers and of what it draws, millimetres; every one known or usual. */
export interface Steering {
  readonly wheelbase: number;
  readonly frontOverhang: number;
  readonly rearOverhang: number;
  readonly width: number;
  readonly height: number;
  readonly track: number;
  readonly axleSpread: number;
  readonly turningCircle: number;
  readonly driver: "left" | "right";
  /** The drawn unit: the trailer, or a car towed overnight too; null where nothing is drawn. */
  readonly drawn: Drawn | null;
  /** The numbers that nobody has told, in the order in which a person would measure them. */
  readonly assumed: readonly AssumedNumber[];
}

export interface Drawn {
  readonly hitchBehindAxle: number;
  readonly hitchToAxle: number;
  /** Body ahead of the hitch, below zero for a bare tongue, and behind the axle. */
  readonly frontOverhang: number;
  readonly rearOverhang: number;
  readonly track: number;
  readonly axleSpread: number;
  /** Degrees. */
  readonly maxHitchAngle: number;
}

/** A number that was taken as usual: most makes lie between `min` and `max`. Millimetres, or degrees for an angle. */
export interface AssumedNumber {
  readonly field: AssumedField;
  readonly typical: number;
  readonly min: number;
  readonly max: number;
}

export type AssumedField = "wheelbase" | "turningCircle" | "hitchBehindAxle" | "maxHitchAngle";

/**
 * What steers a rig. A motorized rig's wheelbase and overhangs are its body's and tyres'; a trailer is drawn by the tow vehicle, about
 * which `rig.drive` tells, and where it does not, by what is usual for one of its length. Usual numbers are common practice over
 * many makes and tied to none; `numbers` puts others in their place, to see what hangs on them.
 */
export function steeringOf(rig: Rig, numbers: Partial<Record<AssumedField, number>> = {}): Steering {
  return isMotorized(rig.kind) ? motorizedSteering(rig, numbers) : towedSteering(rig, numbers);
}

/** Where the hitch of a trailer stands along the rig frame's u, mm. */
export function hitchOf(rig: Rig): number {
  const { body, hitch, drive, kind } = rig;
  if (drive?.hitchToAxle !== undefined) return middleOf(tyresOf(rig)) + drive.hitchToAxle;
  const coupler = body.length + (hitch?.length ?? 0);
  // A fifth wheel's pin is under the nose, close behind its front face, and no truck's length tells it closer.
  return kind === "fifth-wheel" ? body.length - PIN_BEHIND_FACE : coupler;
}

/** Common practice: a pin box carries its pin about this far behind the nose of the body. */
const PIN_BEHIND_FACE = 250;

/** How far most makes lie from the usual number, to either side. */
const SPREAD: Readonly<Record<AssumedField, number>> = { wheelbase: 300, turningCircle: 1200, hitchBehindAxle: 200, maxHitchAngle: 10 };

/** Shares of a vehicle's length, and how far its wheels turn as the one wheel between them, degrees. */
interface Shape {
  readonly wheelbase: number;
  readonly front: number;
  readonly steer: number;
  readonly trackIn: number;
}

const PICKUP: Shape = { wheelbase: 0.636, front: 0.161, steer: 35.5, trackIn: 310 };
const CAR: Shape = { wheelbase: 0.585, front: 0.19, steer: 34, trackIn: 300 };
/** A vehicle this long or longer is taken for a pickup, mm. */
const PICKUP_FROM = 5200;
const USUAL_TOW = { length: 5900, width: 2030, height: 1950 } as const;

/** How far the wheels of a motorized rig turn, degrees: a coach's front axle further than a van's. */
const CUT: Readonly<Partial<Record<Rig["kind"], number>>> = { "class-a": 44, "class-c": 37, "truck-camper": 35.5 };
const VAN_CUT = 38;
/** A towed car's axles, as shares of its length. */
const TOWED_AXLE = 0.775;
/** A ball is about this far behind the bumper; a fifth wheel's hitch a hand ahead of the axle. */
const BALL_BEHIND_BUMPER = 150, PIN_AHEAD_OF_AXLE = 50;
/** Where cab and trailer, or bars and frame, usually meet. */
const BEND = { ball: 65, pin: 75, bar: 50 } as const;

type Numbers = Partial<Record<AssumedField, number>>;

function motorizedSteering(rig: Rig, numbers: Numbers): Steering {
  const { body, tow, drive } = rig, tyres = tyresOf(rig);
  const front = Math.max(...tyres.map(([u]) => u)), rear = tyres.filter(([u]) => u < front - body.length / 4);
  const rearUs = (rear.length > 0 ? rear : tyres.map(([, v]) => [front - body.length * CAR.wheelbase, v] as const)).map(([u]) => u);
  const axle = mean(rearUs), wheelbase = front - axle, track = spanOf(tyres.map(([, v]) => v));
  const note = noting(numbers), usual = (steer: number) => circleOf(wheelbase, track, steer);
  const tightest = 2 * Math.hypot(wheelbase, track);
  const turningCircle = Math.max(tightest, drive?.turningCircle ?? note("turningCircle", usual(CUT[rig.kind] ?? VAN_CUT), tightest));
  const drawn = tow?.stays === "hitched" ? towedCar(tow.length, tow.overlap ?? 0, axle, rig, note) : null;
  return {
    wheelbase, track, turningCircle, drawn, width: body.width, height: body.height, axleSpread: spanOf(rearUs),
    frontOverhang: Math.max(0, body.length - front), rearOverhang: Math.max(0, axle), driver: drive?.driver ?? "left", assumed: note.assumed,
  };
}

/** A car on its own wheels behind a bar: its front axle only follows, so it turns about its rear one. */
function towedCar(length: number, overlap: number, axle: number, { drive, body }: Rig, note: Note): Drawn {
  const hitchToAxle = drive?.hitchToAxle ?? length * TOWED_AXLE - overlap;
  return {
    hitchBehindAxle: axle, hitchToAxle, frontOverhang: overlap, rearOverhang: Math.max(0, length - overlap - hitchToAxle),
    track: body.width - 2 * CAR.trackIn, axleSpread: 0, maxHitchAngle: drive?.maxHitchAngle ?? note("maxHitchAngle", BEND.bar),
  };
}

function towedSteering(rig: Rig, numbers: Numbers): Steering {
  const { drive, body, kind } = rig, { length, width, height } = rig.tow ?? USUAL_TOW, pin = kind === "fifth-wheel";
  const shape = length >= PICKUP_FROM ? PICKUP : CAR, note = noting(numbers);
  const wheelbase = drive?.wheelbase ?? note("wheelbase", round(length * shape.wheelbase));
  const frontOverhang = drive?.frontOverhang ?? Math.max(0, (length - wheelbase) * (shape.front / (1 - shape.wheelbase)));
  const rearOverhang = drive?.rearOverhang ?? Math.max(0, length - wheelbase - frontOverhang), track = drive?.track ?? width - shape.trackIn;
  const tightest = 2 * Math.hypot(wheelbase, track);
  const turningCircle = Math.max(tightest, drive?.turningCircle ?? note("turningCircle", circleOf(wheelbase, track, shape.steer), tightest));
  const hitchBehindAxle = drive?.hitchBehindAxle ?? note("hitchBehindAxle", pin ? -PIN_AHEAD_OF_AXLE : round(rearOverhang + BALL_BEHIND_BUMPER));
  const maxHitchAngle = drive?.maxHitchAngle ?? note("maxHitchAngle", pin ? BEND.pin : BEND.ball);
  const tyres = tyresOf(rig), hitch = hitchOf(rig), axle = middleOf(tyres);
  const drawn: Drawn = {
    hitchBehindAxle, maxHitchAngle, hitchToAxle: Math.max(500, hitch - axle), frontOverhang: body.length - hitch, rearOverhang: Math.max(0, axle),
    track: spanOf(tyres.map(([, v]) => v)), axleSpread: spanOf(tyres.map(([u]) => u)),
  };
  return { wheelbase, frontOverhang, rearOverhang, width, height, track, axleSpread: 0, turningCircle, drawn, driver: drive?.driver ?? "left", assumed: note.assumed };
}

interface Note {
  (field: AssumedField, typical: number, least?: number): number;
  readonly assumed: AssumedNumber[];
}

/** Takes down what is assumed, and gives the number asked for in its place where there is one. */
function noting(numbers: Numbers): Note {
  const assumed: AssumedNumber[] = [];
  return Object.assign((field: AssumedField, typical: number, least = -Infinity) => {
    assumed.push({ field, typical, min: Math.max(least, typical - SPREAD[field]), max: typical + SPREAD[field] });
    return Math.max(least, numbers[field] ?? typical);
  }, { assumed });
}

/** The circle of the outer front tyre with the wheels turned so far: it turns about a point in line with the rear axle. */
function circleOf(wheelbase: number, track: number, steer: number): number {
  return round(2 * Math.hypot(wheelbase, wheelbase / Math.tan((steer * Math.PI) / 180) + track / 2));
}

function tyresOf(rig: Rig): (readonly [number, number])[] {
  return rig.supports.filter(({ kind }) => kind === "tyre").map(({ at }) => at);
}

function middleOf(tyres: readonly (readonly [number, number])[]): number {
  return mean(tyres.map(([u]) => u));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, v) => sum + v, 0) / values.length;
}

function spanOf(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

/** To 10 mm: closer would pretend to a knowledge that nobody has. */
function round(value: number): number {
  return Math.round(value / 10) * 10;
}
