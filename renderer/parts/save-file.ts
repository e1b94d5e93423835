/** Handing bytes or text to the browser to save under a name, in the window as well. */

export function saveFile(fileName: string, content: string | Uint8Array<ArrayBuffer>, mediaType: string): void {
  const address = URL.createObjectURL(new Blob([content], { type: mediaType }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  // The browser has taken the bytes by the next turn; kept longer they would only lie in memory.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}

export function bytesOfBase64(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
