import { useEffect, type ReactNode } from 'react';
import { printPage } from '../bridge/bridge.ts';
import { PressButton } from '../parts/button.tsx';
import { words } from '../words/words.ts';

interface PaperProps {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
  readonly printText?: string;
  readonly mayPrint?: boolean;
  /** Numbers the pages at the foot, beside this text. */
  readonly foot?: string;
  readonly children: ReactNode;
  readonly above?: ReactNode;
  /** Done before the print dialog; false keeps it from opening. */
  beforePrint?(): Promise<boolean>;
}

/** The bar over a printed page, which is not printed, and the page's own size. */
export function Paper({ widthMm, heightMm, marginMm, printText = words.print.print, mayPrint = true, foot, children, above, beforePrint }: PaperProps): ReactNode {
  useEffect(() => {
    // An adopted sheet may hold @page; a <style> element would be blocked by the content policy.
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`@page { size: ${widthMm}mm ${heightMm}mm; margin: ${marginMm}mm; ${foot === undefined ? '' : footRules(foot)} }`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== sheet);
    };
  }, [widthMm, heightMm, marginMm, foot]);
  const print = async (): Promise<void> => {
    if (beforePrint !== undefined && !(await beforePrint())) return;
    await printPage({ widthMm, heightMm });
  };
  return (
    <>
      <div className="print-bar row">
        <PressButton onPress={() => window.history.back()}>{words.print.back}</PressButton>
        <PressButton look="next" isDisabled={!mayPrint} onPress={() => { void print(); }}>{printText}</PressButton>
        {above}
      </div>
      <main className="paper">{children}</main>
    </>
  );
}

/** The margin boxes of a page: what it is of, and which of how many. */
function footRules(foot: string): string {
  const [before = '', between = '', after = ''] = words.print.pageParts;
  const face = 'font: 9pt "Atkinson Next", "DejaVu Sans", sans-serif; color: #000;';
  return `@bottom-left { content: ${cssText(foot)}; ${face} } @bottom-right { content: ${cssText(before)} counter(page) ${cssText(between)} counter(pages) ${cssText(after)}; ${face} }`;
}

/** A text as CSS has it, whatever is in it. */
function cssText(text: string): string {
  return `"${text.replace(/[^\p{L}\p{N} .,:;()/-]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `)}"`;
}
