/**
 * What a page of ours may do: run our own scripts, show our own styles, speak to its own host; nothing from anywhere
 * else, in no other page. Styles that the window makes while it runs carry the nonce.
 */
export function contentPolicy(nonce: string): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "frame-ancestors 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

/** Sent with everything that is served. */
export function securityHeaders(nonce: string): Readonly<Record<string, string>> {
  return {
    'content-security-policy': contentPolicy(nonce),
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'permissions-policy': 'camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), payment=()',
  };
}
