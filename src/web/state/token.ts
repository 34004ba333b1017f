// The token that a shared server asks for: taken from the address behind the QR code, kept on this device only.
// It must not travel anywhere but in the Authorization header of our own API.

const key = 'lastgood.token';

/** Moves `#token=...` from the address bar into storage, so that it is neither bookmarked nor shown. True when there was one. */
export function takeTokenFromAddress(): boolean {
  const match = /^#\/?token=([^&]+)/.exec(location.hash);
  if (match === null) return false;
  localStorage.setItem(key, decodeURIComponent(match[1]));
  return true;
}

export const storedToken = (): string | null => localStorage.getItem(key);

export function storeToken(token: string): void {
  localStorage.setItem(key, token.trim());
}
