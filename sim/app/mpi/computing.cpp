#include "sim/app/mpi/computing.hpp"

#include "sim/numerics/error.hpp"

namespace drumlin::app {

std::exception_ptr problem_of(const std::function<void()>& work) {
  try {
    work();
    return {};
  } catch (...) {
    return std::current_exception();
  }
}

Computing::Computing(const cases::Study& study, const sim::StudyHeader& header,
                     sim::RowRunner& runner, const std::string& name, const std::stop_token& stop)
    : passed_on_(stop, [this] { stop_.request_stop(); }),
      thread_([&study, &header, &runner, name, this] {
        problem_ = problem_of(
            [&] { compute_chunks(study, header, runner, mailbox_, name, stop_.get_token()); });
        mailbox_.close();
      }) {}

Computing::~Computing() {
  stop_.request_stop();
}

std::exception_ptr Computing::failure() const {
  if (!problem_) return {};
  try {
    std::rethrow_exception(problem_);
  } catch (const sim::Stopped&) {
    return {};
  } catch (...) {
    return problem_;
  }
}

}  // namespace drumlin::app
