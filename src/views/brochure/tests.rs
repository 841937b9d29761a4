//! Tests of the brochure.
