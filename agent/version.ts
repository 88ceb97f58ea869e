/** Version of the agent, as it greets and logs; a test holds it to package.json. */
export const agentVersion = "0.1.0";
