import type { ScoringMethod } from "./archive.js";
import { characteristicOf, characteristics } from "./characteristics.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { YamlView } from "./yaml-view.js";

type Scoring = Pick<ScoringMethod, "missingConnection" | "curves" | "purposes" | "grades" | "picks">;

/** Reads the rules of a scoring method: curves in canonical units, weights and grades as stated. */
export function readScoring(view: YamlView, problems: ProblemCollector): Scoring {
  const curves = readCurves(view.child("curves")!, problems);
  return {
    missingConnection: view.choice<ScoringMethod["missingConnection"]>("missing_connection"),
    curves,
    purposes: readPurposes(view.child("purposes")!, curves, problems),
    grades: readGrades(view, problems),
    picks: view.number("picks"),
  };
}

function readCurves(view: YamlView, problems: ProblemCollector): ScoringMethod["curves"] {
  const curves = characteristics.flatMap(({ name, property, symbol }) => {
    const key = view.measureName(name, symbol);
    if (key === undefined) return [];
    const merits = (view.lists(key) as readonly (readonly [number, number])[]).map(([, merit]) => merit);
    const points = merits.map((merit, i) => [view.converted(key, name, symbol, `/${i}/0`), merit] as const);
    const unordered = points.find(([value], i) => i > 0 && !(value > points[i - 1]![0]));
    if (unordered !== undefined) {
      const found = points.map(([value]) => value).join(", ");
      problems.add("E_CURVE_ORDER", view.placeOf(key), { found, expected: "ascending values" });
    }
    merits.forEach((merit, i) => {
      if (merit >= 0 && merit <= 1) return;
      problems.add("E_NUMBER_RANGE", view.placeOf(key, `/${i}/1`), {
        found: String(merit),
        expected: "a merit from 0 to 1",
      });
    });
    return [[property, points] as const];
  });
  return Object.fromEntries(curves);
}

function readPurposes(
  view: YamlView,
  curves: ScoringMethod["curves"],
  problems: ProblemCollector,
): ScoringMethod["purposes"] {
  const withCurve = characteristics.filter(({ property }) => Object.hasOwn(curves, property)).map(({ name }) => name);
  const purposes = view.keys.map((purpose) => {
    const weights = view.child(purpose)!;
    const read = weights.keys.map((name) => {
      if (!withCurve.includes(name)) {
        problems.add("E_WEIGHT_NO_CURVE", weights.placeOfKey(name), { found: name, expected: withCurve.join(", ") });
      }
      return [characteristicOf(name)!.property, weights.number(name)] as const;
    });
    return [purpose, Object.fromEntries(read)] as const;
  });
  return Object.fromEntries(purposes);
}

/** Grades descend and end at 0, so that every merit has exactly one. */
function readGrades(view: YamlView, problems: ProblemCollector): ScoringMethod["grades"] {
  const grades = view.children("grades").map((grade) => ({ name: grade.text("name"), from: grade.number("from") }));
  const descends = grades.every((grade, i) => i === 0 || grade.from < grades[i - 1]!.from);
  if (!descends || grades.at(-1)?.from !== 0) {
    const found = grades.map((grade) => grade.from).join(", ");
    problems.add("E_GRADES_ORDER", view.placeOf("grades"), { found, expected: "descending to 0" });
  }
  return grades;
}
