//! Tests of whole sheets: true scale, no overlapping texts, all inside the frame.
