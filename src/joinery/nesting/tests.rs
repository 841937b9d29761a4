//! The plan against an independent checker, random parts, and draws whose best number of sheets is known.
