/** A lot as a surveyor draws it: lines with bearings, road, driveway, house, well, septic field. Of no real place. */
export function SitePlan() {
  return (
    <svg
      className="first-plan"
      viewBox="0 0 520 250"
      role="img"
      aria-label="A drawn lot with driveway, house, well and septic field"
    >
      <g fill="none" stroke="currentColor" strokeWidth="1.2">
        <path d="M58 34 438 22 470 172 40 196Z" strokeWidth="2" strokeDasharray="18 4 4 4" />
        <path d="M6 214 514 188M6 240 514 214" />
        <path d="M6 227 514 201" strokeDasharray="10 8" strokeWidth="0.8" />
        <path d="M300 199C300 168 286 160 278 138M318 198C318 166 302 150 296 138" />
        <path d="M226 82h92v56h-92zM258 138v-22h34v22" strokeWidth="1.8" />
        <path d="M226 82 258 116M318 82 292 116M226 138 258 116M318 138 292 116" strokeWidth="0.6" />
        <path d="M84 62h74M84 74h74M84 86h74M84 98h74M158 62v36" strokeDasharray="7 4" />
        <path d="M158 80h40M198 72h16v16h-16zM214 80h12" />
        <circle cx="398" cy="78" r="6" />
        <path d="M398 66v24M386 78h24" strokeWidth="0.8" />
        <path d="M392 78h-74" strokeDasharray="3 3" />
        <path d="M488 60V18M480 30l8-14 8 14" strokeWidth="1.6" />
      </g>
      <g fill="currentColor">
        {[
          [58, 34],
          [438, 22],
          [470, 172],
          [40, 196],
        ].map(([x = 0, y = 0]) => (
          <circle key={`${x}`} cx={x} cy={y} r="3.4" />
        ))}
      </g>
      <g className="first-plan-words">
        <text x="214" y="22" transform="rotate(-2 214 22)">
          S 88° 12′ E 380.1′
        </text>
        <text x="95" y="118">
          septic
        </text>
        <text x="386" y="104">
          well
        </text>
        <text x="258" y="102">
          house
        </text>
        <text x="324" y="172">
          driveway
        </text>
        <text x="60" y="234" transform="rotate(-3 60 234)">
          county road
        </text>
        <text x="484" y="78">
          N
        </text>
      </g>
    </svg>
  );
}
