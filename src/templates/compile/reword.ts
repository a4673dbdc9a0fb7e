import ts from "typescript";
import type { Wording } from "../problem.js";
import { noResult } from "../shared-wording.js";
import type { RewordContext } from "./reword-context.js";
import { shortText } from "./reword-context.js";
import {
  rewordExport,
  rewordMissing,
  rewordName,
  rewordOption,
  rewordProperty,
  rewordUsedBefore,
} from "./reword-names.js";
import { rewordComparison, rewordMismatch, rewordReturn } from "./reword-types.js";
import { notErasable } from "./syntax-wording.js";
import * as wording from "./type-wording.js";

/** Says a compiler error in the words of templates. */
export function reword(diagnostic: ts.Diagnostic, context: RewordContext): Wording {
  const start = diagnostic.start ?? 0;
  const node = nodeAt(context.sourceFile, start, start + (diagnostic.length ?? 0));
  const text = ts.flattenDiagnosticMessageText(diagnostic.messageText, "\n").split("\n").slice(0, 2).join(": ");
  return rewordCode(diagnostic.code, node, context) ?? wording.otherFault(text, diagnostic.code);
}

function rewordCode(code: number, node: ts.Node, context: RewordContext): Wording | null {
  switch (code) {
    case 2304: // cannot find name, with its variants
    case 2552:
    case 2503:
    case 2580:
    case 2581:
    case 2582:
    case 2583:
    case 2584:
    case 2591:
    case 2592:
    case 2593:
    case 2867:
    case 2868:
    case 18004:
      return rewordName(node, context);
    case 2339: // no such property
    case 2551:
    case 2568:
    case 2570:
      return rewordProperty(node, context);
    case 2531: // possibly null or undefined
    case 2532:
    case 2533:
    case 2721:
    case 2722:
    case 2723:
    case 18047:
    case 18048:
    case 18049:
      return wording.mayBeUndefined(shortText(node, context));
    case 2305: // no such export
    case 2614:
    case 2724:
    case 2459:
    case 2460:
    case 1192:
      return rewordExport(node, context);
    case 2300: // declared twice
    case 2440:
    case 2451:
    case 2567:
      return wording.repeatedName(shortText(node, context));
    case 2448: // used before its declaration
    case 2449:
    case 2450:
      return rewordUsedBefore(node, context);
    case 2588: // assignment to something read-only
    case 2540:
    case 2542:
    case 2628:
    case 2629:
    case 2630:
    case 2632:
      return wording.readOnly(shortText(node, context));
    case 1294: // not erasable
      return notErasable;
    case 2367: // two texts that can never be the same
      return rewordComparison(node, context);
    case 2353: // unknown property of an object literal
    case 2561:
      return rewordOption(node, context);
    case 2739: // missing properties
    case 2740:
    case 2741:
      return rewordReturn(node, context) ?? rewordMissing(node, context);
    case 2355: // no result
    case 2366:
    case 7030: {
      const role = context.roleAt(node.getStart(context.sourceFile));
      const wrapper = role !== null && role !== "inline" && node.getText(context.sourceFile).startsWith("__benchfolio.");
      return wrapper ? noResult(role) : null;
    }
    case 2322: // not assignable
    case 2345:
    case 2559:
    case 2769:
    case 2820:
      return rewordReturn(node, context) ?? rewordMismatch(node, context);
    default:
      return null;
  }
}

/** The outermost node that a stretch of the file is, or the smallest one that holds it. */
function nodeAt(sourceFile: ts.SourceFile, start: number, end: number): ts.Node {
  const visit = (node: ts.Node): ts.Node => {
    const inner = node.getChildren(sourceFile).find((each) => each.getStart(sourceFile) <= start && each.getEnd() >= end);
    const exact = node.getStart(sourceFile) === start && node.getEnd() === end && !ts.isSourceFile(node);
    return inner === undefined || (exact && node.kind !== ts.SyntaxKind.SyntaxList) ? node : visit(inner);
  };
  return visit(sourceFile);
}
