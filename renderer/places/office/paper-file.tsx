import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { Failure } from '../../../app/contract/envelope.ts';
import type { Paper } from '../../../app/contract/requests/papers.ts';
import { ask, AskFailure } from '../../bridge/bridge.ts';
import { PressButton } from '../../parts/button.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

type GivenFile = Output<'paper.file'>;

const text = words.office.papersPages;

/** Shows a paper's own file; it is asked for only when it is wanted, since a scan may be large. */
export function PaperFileButton({ paper }: { readonly paper: Paper }): ReactNode {
  const [file, setFile] = useState<GivenFile | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  const open = async (): Promise<void> => {
    setFailure(null);
    try {
      setFile(await ask('paper.file', { paperId: paper.id }));
    } catch (thrown) {
      if (!(thrown instanceof AskFailure)) throw thrown;
      setFailure(thrown.failure);
    }
  };
  if (paper.fileId === null) return null;
  return (
    <>
      <PressButton look="quiet" label={text.showFileOf(paper.what)} onPress={() => { void open(); }}>{text.showFile}</PressButton>
      <ProblemNote failure={failure} />
      {file === null ? null : <FileLeaf what={paper.what} file={file} onClose={() => setFile(null)} />}
    </>
  );
}

/** A picture or a text as it is; anything else is saved and opened by the program there is for it. */
function FileLeaf({ what, file, onClose }: { readonly what: string; readonly file: GivenFile; onClose(): void }): ReactNode {
  const isPicture = file.mediaType === 'image/png' || file.mediaType === 'image/jpeg';
  return (
    <Leaf title={what} wide onClose={onClose}>
      <p className="soft">{file.fileName}</p>
      {isPicture ? <img className="paper-picture" src={`data:${file.mediaType};base64,${file.base64}`} alt={text.pictureOf(what)} /> : null}
      {file.mediaType === 'text/plain' ? <pre className="paper-text">{new TextDecoder().decode(bytesOf(file))}</pre> : null}
      {isPicture || file.mediaType === 'text/plain' ? null : <p>{text.saveToRead}</p>}
      <div className="row">
        <PressButton onPress={() => saveFile(file)}>{text.saveFile}</PressButton>
        <PressButton onPress={onClose}>{words.parts.close}</PressButton>
      </div>
    </Leaf>
  );
}

/** Hands the file to the browser to save under its own name. */
function saveFile(file: GivenFile): void {
  const address = URL.createObjectURL(new Blob([bytesOf(file)], { type: file.mediaType }));
  const link = document.createElement('a');
  link.href = address;
  link.download = file.fileName;
  link.click();
  // The browser has taken the bytes by the next turn; kept longer they would only lie in memory.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}

function bytesOf({ base64 }: GivenFile): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
