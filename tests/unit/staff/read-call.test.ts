import { describe, expect, test } from "vitest";
import { readCall, shortWords, type CalledKind } from "../../../app/desk/check/read-call";
import { typicalKinds } from "@/lib/rig/typical";
import { catalogueOf, numbersFor } from "@/lib/wording";

const FOOT = 304.8;
const said = (text: string, units: "ft-in" | "metric" = "ft-in") => {
  const read = readCall(text, units);
  return read.ok ? [read.call.kind, Math.round((read.call.overall / FOOT) * 100) / 100] : read.faults.map((fault) => fault.code);
};

describe("a kind and a length", () => {
  test.each<[string, CalledKind, number]>([
    ["tt 31", "travel-trailer", 31],
    ["31 tt", "travel-trailer", 31],
    ["tt31", "travel-trailer", 31],
    ["31ft tt", "travel-trailer", 31],
    ["31 ft travel trailer", "travel-trailer", 31],
    ["31-ft travel trailer", "travel-trailer", 31],
    ["A 31 foot Travel Trailer, hitch included", "travel-trailer", 31],
    ["trailer 19' 6\"", "travel-trailer", 19.5],
    ["bumper pull 24 ft 6 in overall", "travel-trailer", 24.5],
    ["fw 37", "fifth-wheel", 37],
    ["5th wheel 33", "fifth-wheel", 33],
    ["33 5th wheel", "fifth-wheel", 33],
    ["33' 5w", "fifth-wheel", 33],
    ["fifth-wheel 29", "fifth-wheel", 29],
    ["class c 25", "class-c", 25],
    ["CC 28.5", "class-c", 28.5],
    ["class a, 39", "class-a", 39],
    ["ca 12 m", "class-a", 39.37],
    ["bus 43", "class-a", 43],
    ["pop-up 15", "folding-trailer", 15],
    ["popup 15", "folding-trailer", 15],
    ["tent trailer 18", "folding-trailer", 18],
    ["toy hauler 38", "toy-hauler", 38],
    ["trailer with a garage 38", "toy-hauler", 38],
    ["th 34", "toy-hauler", 34],
    ["van 19", "van", 19],
    ["camper van 21", "van", 21],
    ["class b 19", "van", 19],
    ["truck camper 20", "truck-camper", 20],
    ["tc 20", "truck-camper", 20],
    ["my van is about 19 ft long", "van", 19],
  ])("%s", (text, kind, feet) => expect(said(text)).toEqual([kind, feet]));

  test("in meters where those are the reader's", () => {
    expect(said("tt 9.5", "metric")).toEqual(["travel-trailer", 31.17]);
    expect(said("tt 9,5", "metric")).toEqual(["travel-trailer", 31.17]);
    expect(said("tt 31 ft", "metric")).toEqual(["travel-trailer", 31]);
  });

  test("every kind has a short word of its own that is read back", () => {
    expect(new Set(Object.values(shortWords)).size).toBe(typicalKinds.length);
    for (const kind of typicalKinds) expect(said(`${shortWords[kind]} 20`)).toEqual([kind, 20]);
  });

  test("every kind is read by the name the pages call it", () => {
    const { rigKinds } = catalogueOf().things;
    for (const kind of typicalKinds) expect(said(`${rigKinds[kind]} 20`)[0]).toBe(kind);
  });
});

describe("what is wrong", () => {
  test.each([
    ["31", ["kind-missing"]],
    ["tt", ["length"]],
    ["tt thirty", ["length"]],
    ["hello", ["kind-missing", "length"]],
    ["camper 31", ["kind-vague"]],
    ["motorhome", ["kind-vague", "length"]],
    ["rv 31", ["kind-vague"]],
    ["tt class c 31", ["kind-two"]],
    ["tt 3", ["short"]],
    ["tt 310", ["long"]],
    ["tt 24 6", ["length"]],
    ["tt -31", ["length"]],
  ])("%s", (text, codes) => expect(said(text)).toEqual(codes));

  test("31 in meters is longer than any rig, and says what may have been meant", () => {
    const read = readCall("tt 31", "metric");
    expect(read.ok ? [] : read.faults.map((fault) => catalogueOf().staff.desk.fault(fault, (k) => k, "metric", numbersFor("metric")))).toEqual(["31.00 m is longer than any rig. If feet were meant, write ft."]);
  });

  test("each fault is told in words with what to do", () => {
    const words = (text: string) => { const read = readCall(text, "ft-in"); return read.ok ? [] : read.faults.map((fault) => catalogueOf().staff.desk.fault(fault, (k) => shortWords[k as CalledKind], "ft-in", numbersFor("ft-in"))); };
    expect(words("motorhome 31")).toEqual(["“motorhome” may mean large motorhome (ca) or small motorhome (cc). Ask which."]);
    expect(words("fw tt 31")).toEqual(["That names 2 kinds: travel trailer (tt) and fifth wheel (fw). Keep one."]);
    expect(words("tt")).toEqual(["How long is it, hitch included? Put the length beside the kind."]);
    expect(words("blah")).toHaveLength(2);
  });
});
