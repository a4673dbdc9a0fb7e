/** The floor of pages: a template's run becomes one self-contained HTML dossier. */
export type {
  Deviation,
  DossierInput,
  DrawnChart,
  Particular,
  RawFile,
  ReportItem,
  Statement,
  TitleBlock,
} from "./input.js";
export { renderDossier } from "./render-dossier.js";
