/**
 * From now on, whatever this process makes (lots, papers, packets, temporary folders) is for this user's eyes only, where
 * the system knows such a thing (POSIX): folders 0700, files 0600. Papers hold names, account and identity numbers, and
 * a computer may have other users. Hosts call it first thing; worker processes inherit it. Files that are there already
 * keep what they were given.
 */
export function forOwnEyesOnly(): void {
  process.umask(0o077);
}
