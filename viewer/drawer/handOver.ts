/** Hands a file to the person as a download. */
export function handOver(name: string, data: string | Uint8Array<ArrayBuffer>, type: string): void {
  const url = URL.createObjectURL(new Blob([data], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser has its own hold on it once the download began.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
