import { describe, expect, it } from "vitest";
import { nextCell } from "@/app/manage/fits/grid-keys";

const size = { rows: 30, columns: 5 };
const from = (row: number, column: number) => (key: string, control = false) => {
  const to = nextCell(key, control, { row, column }, size);
  return to && [to.row, to.column];
};

describe("nextCell", () => {
  it("goes one cell the way of the arrow, and no further than the edges", () => {
    expect(from(3, 2)("ArrowUp")).toEqual([2, 2]);
    expect(from(3, 2)("ArrowDown")).toEqual([4, 2]);
    expect(from(3, 2)("ArrowLeft")).toEqual([3, 1]);
    expect(from(3, 2)("ArrowRight")).toEqual([3, 3]);
    expect(from(29, 4)("ArrowDown")).toBeNull();
    expect(from(29, 4)("ArrowRight")).toBeNull();
  });

  it("reaches the heads of rows and columns, and not the corner between them", () => {
    expect(from(0, 2)("ArrowUp")).toEqual([-1, 2]);
    expect(from(2, 0)("ArrowLeft")).toEqual([2, -1]);
    expect(from(-1, 0)("ArrowLeft")).toBeNull();
    expect(from(0, -1)("ArrowUp")).toBeNull();
  });

  it("goes to the ends of a row, to the corners, and by ten rows", () => {
    expect(from(3, 2)("Home")).toEqual([3, -1]);
    expect(from(-1, 2)("Home")).toEqual([-1, 0]);
    expect(from(3, 2)("End")).toEqual([3, 4]);
    expect(from(3, 2)("Home", true)).toEqual([0, 0]);
    expect(from(3, 2)("End", true)).toEqual([29, 4]);
    expect(from(3, 2)("PageDown")).toEqual([13, 2]);
    expect(from(25, 2)("PageDown")).toEqual([29, 2]);
    expect(from(3, 2)("PageUp")).toEqual([0, 2]);
  });

  it("leaves every other key to the browser", () => {
    for (const key of ["Enter", "Tab", "a", " "]) expect(from(3, 2)(key)).toBeNull();
  });
});
