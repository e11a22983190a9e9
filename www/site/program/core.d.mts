/** Starts the core, once however often it is called. */
export function open(): Promise<Core>;

/** What is wrong with a design or a link. */
export class DesignError extends Error {
  readonly faults: ReportFault[];
}

/** The core of Drawoff. Every function throws a DesignError when the design cannot be used. */
export interface Core {
  /** Checks a design. The same design gives the same report. */
  check(design: Design): Report;
  /** The report as text: the bytes that "drawoff check -json" prints. */
  checkText(design: Design): string;
  /** A file for the workshop, named as the page names it: "templates.pdf", "side-view.dxf", "report.json". */
  file(design: Design, name: string): { name: string; type: string; content: string };
  /** The part of a link that holds the design, to be put after the "#" of the page's address. */
  link(design: Design): string;
  /** The design in a link: in its part after the "#", or in the whole. */
  read(link: string): Design;
}
