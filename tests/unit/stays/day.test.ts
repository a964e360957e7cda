import { describe, expect, it } from "vitest";
import { asDate, listsOf, type DayList, type DayStay } from "@/lib/stays";

const day = asDate("2027-06-18");

function stay(arrive: string, depart: string, more: Partial<DayStay> = {}): DayStay {
  return { state: "booked", nights: { arrive: asDate(arrive), depart: asDate(depart) }, site: "a01", freedFrom: null, ...more };
}

describe("in which lists of a day a stay stands", () => {
  it.each<[string, DayStay, DayList[]]>([
    ["comes today", stay("2027-06-18", "2027-06-20"), ["arriving"]],
    ["was to come yesterday and is not here", stay("2027-06-17", "2027-06-20"), ["late"]],
    ["was to come, and the nights are over", stay("2027-06-14", "2027-06-16"), ["late"]],
    ["comes tomorrow", stay("2027-06-19", "2027-06-20"), []],
    ["comes today and has no site", stay("2027-06-18", "2027-06-20", { site: null }), ["arriving", "unassigned"]],
    ["comes next month and has no site", stay("2027-07-18", "2027-07-20", { site: null }), ["unassigned"]],
    ["is here until tomorrow", stay("2027-06-17", "2027-06-19", { state: "arrived" }), ["staying"]],
    ["goes today", stay("2027-06-17", "2027-06-18", { state: "arrived" }), ["leaving"]],
    ["should have gone yesterday and is still here", stay("2027-06-15", "2027-06-17", { state: "arrived" }), ["leaving"]],
    ["went today as planned", stay("2027-06-15", "2027-06-18", { state: "departed" }), ["left"]],
    ["went today, two nights early", stay("2027-06-15", "2027-06-20", { state: "departed", freedFrom: day }), ["left"]],
    ["went yesterday, early", stay("2027-06-15", "2027-06-18", { state: "departed", freedFrom: asDate("2027-06-17") }), []],
    ["asks for nights to come", stay("2027-07-01", "2027-07-03", { state: "requested" }), ["requests"]],
    ["asks for nights to come, on any site", stay("2027-07-01", "2027-07-03", { state: "requested", site: null }), ["unassigned", "requests"]],
    ["asked for nights that are over", stay("2027-06-01", "2027-06-03", { state: "requested" }), []],
    ["is on hold", stay("2027-07-01", "2027-07-03", { state: "held" }), ["holds"]],
    ["was cancelled", stay("2027-06-18", "2027-06-20", { state: "cancelled" }), []],
    ["did not come", stay("2027-06-18", "2027-06-20", { state: "no-show" }), []],
  ])("who %s", (_, of, lists) => {
    expect(listsOf(of, day, day)).toEqual(lists);
  });

  it.each<[string, DayStay, DayList[]]>([
    ["is to come in between", stay("2027-06-17", "2027-06-20"), ["staying"]],
    ["is to come and go before", stay("2027-06-12", "2027-06-14"), []],
    ["is to go that day", stay("2027-06-15", "2027-06-18"), ["leaving"]],
    ["is to come that day", stay("2027-06-18", "2027-06-20"), ["arriving"]],
    ["is late today already", stay("2027-06-09", "2027-06-20"), ["late"]],
    ["is here until then", stay("2027-06-09", "2027-06-18", { state: "arrived" }), ["leaving"]],
    ["is here, and gone by then", stay("2027-06-09", "2027-06-12", { state: "arrived" }), []],
    ["should be gone today", stay("2027-06-05", "2027-06-09", { state: "arrived" }), []],
  ])("seen eight days before: who %s", (_, of, lists) => {
    expect(listsOf(of, day, asDate("2027-06-10"))).toEqual(lists);
  });
});
